"""Today's part about what is due: this week's items of whoever does the work, or of all that somebody looks after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from flask import url_for

from repairlog.records.queries.due import DueRow, WantedDue, due, how_many_due
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.everyone.due import today_in, told_in, who_has
from repairlog.web.everyone.due_filter import MINE, end_of_week
from repairlog.web.frame.asking import Asker

AT_MOST = 8
"""Items that Today shows; the list has them all."""

LOOK_AFTER = ("manager", "supervisor", "officer")
"""Roles that are shown all that is due; a crew is shown its own."""


def due_this_week(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What is late or due up to the end of this week; None for who neither looks after leaks nor works on them, and for
    whoever works on them where nothing of theirs is due."""
    within = areas(who.scope, tx)
    today = today_in(within)
    all_of_it = who.holds(*LOOK_AFTER)
    if not (all_of_it or who.holds("crew")):
        return None
    owing = WantedDue(until_on=end_of_week(today.on))
    if not all_of_it:
        owing = replace(owing, person=who.actor.person, person_on=today.on)
    rows: Sequence[DueRow] = due(
        who.scope, tx, on=today.on, at=who.at, owing=owing, after=None, most=AT_MOST, days=today.days
    )
    number = how_many_due(who.scope, tx, on=today.on, at=who.at, owing=owing)
    if not rows and not all_of_it:
        return None
    return {
        "template": "everyone/due_today.html",
        "rows": rows,
        "more": number - len(rows),
        "all_of_it": all_of_it,
        "who": who_has(tx, rows),
        "list": url_for("due.page", when="week", who=None if all_of_it else MINE),
        **told_in(within, today, rows=rows),
    }
