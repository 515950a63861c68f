"""Places of an area: those that a source may be at."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.search_key import words_in
from repairlog.records.tables.seen import works_in
from repairlog.records.tables.worked import PLACE


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRow:
    """A place. `what`: service, main_segment, meter_set, structure, building. `retired_on`: empty while it stands."""

    id: UUID
    what: str
    called: str
    house_number: str
    street: str
    town: str
    retired_on: str


def places_of(scope: Scope, tx: Tx, *, area: UUID, part: str, most: int) -> list[PlaceRow]:
    """The places of that area in whose name and address every word of `part` stands, all of them where it has none;
    in the order of their names, at most `most`. Places added in error are left out."""
    holding = [PLACE.c.search_key.contains(word, autoescape=True) for word in words_in(part)]
    there = (PLACE.c.area_id == area, ~PLACE.c.void, PLACE.c.id.not_in(stood_for()))
    wanted = select(PLACE).where(*there, works_in(scope, PLACE.c.area_id), *holding)
    rows = tx.connection.execute(wanted.order_by(PLACE.c.search_key, PLACE.c.id).limit(most))
    return [
        PlaceRow(
            id=row.id,
            what=row.what,
            called=row.called or "",
            house_number=row.house_number or "",
            street=row.street or "",
            town=row.town or "",
            retired_on=row.retired_on.isoformat() if row.retired_on else "",
        )
        for row in rows
    ]
