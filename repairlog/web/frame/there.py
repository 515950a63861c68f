"""What a form about one thing reads: the area that the thing is in, and whom and what it may name there."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date
from uuid import UUID

from flask import abort, request

from repairlog.intake.form import Choices
from repairlog.records.queries.crews import crews_of
from repairlog.records.queries.instruments import instruments_of
from repairlog.records.queries.lots import lots_of
from repairlog.records.queries.people import people_of
from repairlog.records.queries.people_listed import ListedPerson, WantedPeople, people_listed
from repairlog.records.queries.settings import areas, operator_zone
from repairlog.records.queries.stores import shelves_in
from repairlog.records.store import Tx
from repairlog.trade.area import USUAL_LEL_BASIS, Area
from repairlog.web.frame.asking import asker
from repairlog.words import _, lots

MOST_CHOICES = 2000
"""People that a box offers at the most."""

Here = Sequence[Area]
"""The areas that a form is about: none, where the asker may not see what it is about."""


def hide(found: object) -> None:
    """404 for who asks to see what they may not, or what is not there; what they send about it is kept all the same."""
    if not found and request.method == "GET":
        abort(404)


def area_there(tx: Tx, area: UUID | None) -> list[Area]:
    """That area, where it is one of the asker's; none otherwise."""
    return [each for each in areas(asker().scope, tx) if each.id == area]


def areas_for(tx: Tx, kind: str) -> list[Area]:
    """The areas in which the asker may post an entry of that kind."""
    return [area for area in areas(asker().scope, tx) if asker().may(kind, area=area.id)]


def area_choices(here: Here) -> Choices:
    """Areas as a box offers them."""
    return [(str(area.id), area.name) for area in here]


def area_first(here: Here) -> dict[str, str]:
    """What the box of areas holds at first: the only one that there is."""
    return {"area": str(here[0].id)} if len(here) == 1 else {}


def people_there(tx: Tx, here: Here) -> Choices:
    """Who may have worked there, by name."""
    found = {(row.name, str(row.id)) for area in here for row in people_of(asker().scope, tx, area=area.id)}
    return [(id, name) for name, id in sorted(found)]


def crews_there(tx: Tx, here: Here) -> Choices:
    """The crews there, by name."""
    return [(str(row.id), row.name) for area in here for row in crews_of(asker().scope, tx, area=area.id)]


def lots_there(tx: Tx, here: Here) -> Choices:
    """The lots that came there last, the newest first."""
    return [(str(lot.id), lots.choice(lot)) for area in here for lot in lots_of(asker().scope, tx, area=area.id)]


def shelves_there(tx: Tx, here: Here) -> Choices:
    """The shelves and trucks there, by name."""
    return [(str(row.id), row.name) for area in here for row in shelves_in(asker().scope, tx, area=area.id)]


def instruments_there(tx: Tx, here: Here) -> Choices:
    """The instruments in use there, by their marks."""
    used = [row for area in here for row in instruments_of(asker().scope, tx, area=area.id)]
    return [(str(row.id), _("{mark}, {what}").format(mark=row.mark, what=row.what)) for row in used]


def operators_own(tx: Tx) -> Area | None:
    """The clock of the operator, for what belongs to no area; None before the book is opened."""
    zone = operator_zone(asker().scope, tx)
    if zone is None:
        return None
    nowhere = UUID(int=0)
    return Area(id=nowhere, name="", code="", zone=zone, elevation="", lel_basis=USUAL_LEL_BASIS, settings_version=0)


def areas_to_choose(tx: Tx) -> tuple[Here, Choices]:
    """The asker's areas, and the same as a box offers them."""
    here = areas(asker().scope, tx)
    return here, area_choices(here)


def people_to_choose(tx: Tx) -> Choices:
    """Who is on the books and has not left, by name; people of one name with what tells them apart."""
    today = date.fromisoformat(asker().on)
    asked = WantedPeople(on=today, soon_until=today)
    rows = people_listed(asker().scope, tx, asked=asked, after=None, most=MOST_CHOICES)
    of_name = Counter(row.name for row in rows)
    return [(str(row.id), _told_apart(row) if of_name[row.name] > 1 else row.name) for row in rows]


def _told_apart(row: ListedPerson) -> str:
    return ", ".join(filter(None, (row.name, row.company, row.staff_number)))
