"""An administrator's part of Today once the book is in use: who can come in, and what of the books wants a look."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from flask import current_app, url_for

from repairlog.records.beside.ways_in import how_many_in
from repairlog.records.queries.instruments_listed import WantedInstruments, instruments_listed
from repairlog.records.queries.people_listed import WantedPeople, people_listed
from repairlog.records.queries.set_up import set_up
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.web.admin.people_filter import SOON
from repairlog.web.frame.asking import IDLE, Asker
from repairlog.words import _

COUNTED = 100
"""People or instruments that are counted; of more it is said that there are more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """`number`: how many, as it is shown; `says`: of what; `address`: where they are listed; `why`: what hangs on
    it."""

    number: str
    says: str
    address: str
    why: str


def looked_after(tx: Tx, who: Asker) -> dict[str, Any] | None:
    """What to look over; None for whoever lets nobody in, and while the book is empty."""
    if not who.may("lets_in", area=None):
        return None
    there = set_up(who.scope, tx)
    if there is None or not there.in_use:
        return None
    lines = [*_people(tx, who), *_instruments(tx, who), *_areas(tx, who)]
    ways = how_many_in(tx, since=who.at - current_app.config[IDLE])
    return {"template": "admin/looked_after.html", "lines": lines, "ways": ways}


def _people(tx: Tx, who: Asker) -> Iterator[Line]:
    today = date.fromisoformat(who.on)
    of = WantedPeople(on=today, soon_until=today + timedelta(days=int(SOON[0])))
    asked = (
        ("", "lapsed", _("People with a lapsed qualification"), _("What they do of that task is raised as a gap.")),
        ("", "ends_soon", _("People with one that ends within 30 days"), _("Time for another evaluation.")),
        ("crew", "none", _("People of a crew without any"), _("No evaluation of theirs is on the books.")),
    )
    for role, qualified, says, why in asked:
        wanted = replace(of, role=role, qualified=qualified)
        found = people_listed(who.scope, tx, asked=wanted, after=None, most=COUNTED + 1)
        if found:
            at = url_for("people.page", role=role or None, qualified=qualified)
            yield Line(number=_counted(len(found)), says=says, address=at, why=why)


def _instruments(tx: Tx, who: Asker) -> Iterator[Line]:
    today = date.fromisoformat(who.on)
    of = WantedInstruments(on=today, soon_until=today + timedelta(days=int(SOON[0])))
    asked = (
        ("out", _("Instruments out of calibration"), _("A reading with one is raised as a gap.")),
        ("never", _("Instruments never calibrated"), _("A reading with one is raised as a gap.")),
        ("ends_soon", _("Instruments to be calibrated within 30 days"), _("Send them in before the day.")),
    )
    for standing, says, why in asked:
        found = instruments_listed(who.scope, tx, asked=replace(of, standing=standing), after=None, most=COUNTED + 1)
        if found:
            at = url_for("instruments.page", standing=standing)
            yield Line(number=_counted(len(found)), says=says, address=at, why=why)


def _areas(tx: Tx, who: Asker) -> Iterator[Line]:
    bare = [area for area in areas(who.scope, tx) if not area.adoptions]
    if bare:
        yield Line(
            number=str(len(bare)),
            says=_("Areas without a rulebook: {names}").format(names=", ".join(area.name for area in bare)),
            address=url_for("rulebooks.page"),
            why=_("Nothing is due there, and no reading calls for a grade."),
        )


def _counted(number: int) -> str:
    return _("over {number}").format(number=COUNTED) if number > COUNTED else str(number)
