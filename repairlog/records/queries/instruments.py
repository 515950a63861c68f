"""Instruments of an area that a crew chooses from."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import INSTRUMENT
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.seen import works_in


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentRow:
    """An instrument in use. `mark`: as on its label; `what`: what it is."""

    id: UUID
    mark: str
    what: str


def instruments_of(scope: Scope, tx: Tx, *, area: UUID) -> list[InstrumentRow]:
    """The instruments of that area that are in use, by their marks."""
    here = (
        INSTRUMENT.c.area_id == area,
        ~INSTRUMENT.c.void,
        INSTRUMENT.c.retired_on.is_(None),
        INSTRUMENT.c.id.not_in(stood_for()),
    )
    rows = select(INSTRUMENT.c.id, INSTRUMENT.c.mark, INSTRUMENT.c.what).where(
        *here, works_in(scope, INSTRUMENT.c.area_id)
    )
    ordered = rows.order_by(INSTRUMENT.c.mark, INSTRUMENT.c.id)
    return [InstrumentRow(id=row.id, mark=row.mark, what=row.what) for row in tx.connection.execute(ordered)]
