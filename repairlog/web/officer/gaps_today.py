"""An officer's part of Today: what does not hold up in the records, counted by what it is."""

from __future__ import annotations

from typing import Any

from flask import url_for

from repairlog.records.queries.gaps import WantedGaps, gaps_by_code
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.web.frame.lines import Line, Way, lines_of
from repairlog.words import _
from repairlog.words import gaps as words


def gaps_today(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """Gaps that nobody set aside, what comes most often first; None for who does not answer for the records."""
    if not who.holds("officer", "manager"):
        return None
    counts = gaps_by_code(who.scope, tx, asked=WantedGaps())
    most_first = sorted(counts.items(), key=lambda each: (-each[1], each[0]))
    return lines_of(
        _("Gaps"),
        [
            Line(lead=str(number), title=words.name(code), address=url_for("gaps.page", code=code))
            for code, number in most_first
        ],
        none=_("Every record that you see holds up, as far as it is checked."),
        ways=[Way(name=_("All gaps"), address=url_for("gaps.page"))],
    )
