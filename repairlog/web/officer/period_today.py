"""An inspector's part of Today: which areas and which period they were let in to look at, and until when."""

from __future__ import annotations

from typing import Any

from flask import url_for

from repairlog.access import Membership
from repairlog.access.actor import INSPECTOR
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.frame.asking import Asker
from repairlog.web.frame.lines import Line, Way, lines_of
from repairlog.words import _
from repairlog.words.days import day


def period_today(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What an inspector sees here; None for everybody else."""
    if not who.holds(INSPECTOR):
        return None
    names = {area.id: area.name for area in areas(who.scope, tx)}
    held = [m for m in who.actor.memberships if m.role == INSPECTOR and m.covers(area=m.area, on=who.on)]
    return lines_of(
        _("For you to look at"),
        [_line(each, names.get(each.area, "") if each.area else ", ".join(names.values())) for each in held],
        none="",
        ways=[Way(name=_("To the records"), address=url_for("records.page"), first=True)],
    )


def _line(of: Membership, where: str) -> Line:
    first, last = (day(on) if on else "" for on in (of.period_from_on, of.period_until_on))
    said = _(
        "You see every leak that was open on a day of that period, with its whole story; what you look at is listed."
    )
    ends = _("Open to you until {day}.").format(day=day(of.until_on)) if of.until_on else ""
    return Line(
        title=_("{where}: {first} to {last}").format(where=where, first=first, last=last) if first or last else where,
        address=url_for("records.page"),
        beside=" ".join(filter(None, (said, ends))),
    )
