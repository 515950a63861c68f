"""A person's part of Today: the work that was given to them or to a crew of theirs."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import url_for

from repairlog.records.queries.work import WorkRow, work_in_hand
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.words import _, codes
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day
from repairlog.words.story.reader import small

AT_MOST = 50


def given_to_you(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What is given to whoever asks, what is to be done first before the rest; None where nothing is."""
    rows = work_in_hand(who.scope, tx, person=who.actor.person, on=date.fromisoformat(who.on), most=AT_MOST)
    if not rows:
        return None
    return {"template": "crew/in_hand.html", "lines": [_line(row, who) for row in rows]}


def _line(row: WorkRow, who: Asker) -> dict[str, Any]:
    said = _("to be done by {day}").format(day=day(row.by_on)) if row.by_on else ""
    waits = _("waits on: {what}").format(what=small(codes.word(row.waits_on))) if row.waits_on else ""
    return {
        "work": codes.word(row.work),
        "where": address_of_leak(row),
        "number": row.number,
        "grade": row.grade,
        "rank": row.rank,
        "by": ", ".join(filter(None, (said, waits))),
        "past": bool(row.by_on) and row.by_on < who.on,
        "sheet": url_for("sheet.page", leak=row.leak),
    }
