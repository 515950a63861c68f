"""A person's parts of Today: the work that was given to them or to a crew of theirs, and what they left unfinished."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import url_for

from repairlog.records.beside.unfinished import left_by
from repairlog.records.queries.settings import areas
from repairlog.records.queries.work import WorkRow, work_in_hand
from repairlog.records.store import Tx
from repairlog.web.crew.said_in import title_of
from repairlog.web.frame.again import entries_in
from repairlog.web.frame.asking import Asker
from repairlog.words import _, codes
from repairlog.words.addresses import address_of_leak
from repairlog.words.calls import minutes
from repairlog.words.days import day
from repairlog.words.story.reader import small

AT_MOST = 50
MOST_LEFT = 5


def given_to_you(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What is given to whoever asks, what is to be done first before the rest; None where nothing is, to whoever
    does not repair."""
    rows = work_in_hand(who.scope, tx, person=who.actor.person, on=date.fromisoformat(who.on), most=AT_MOST)
    repairs = _repairs(tx, who)
    if not rows and not repairs:
        return None
    lines = [_line(row, who) for row in rows]
    return {"template": "crew/in_hand.html", "lines": lines, "at_the_truck": repairs}


def left_unfinished(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """The newest of what the asker typed and has not saved; None where nothing was left."""
    left = left_by(tx, who.actor.person, most=MOST_LEFT)
    if not left:
        return None
    lines = [(minutes(each.kept_at, at=who.at), title_of(entries_in(each)), each.id) for each in left]
    return {"template": "crew/left_today.html", "lines": lines}


def _repairs(tx: Tx, who: Asker) -> bool:
    """Whether repairing is the asker's own work: they may log a repair and not accept one."""
    ids = [area.id for area in areas(who.scope, tx)]
    return any(who.may("repair_attempted", area=id) and not who.may("repair_reviewed", area=id) for id in ids)


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
