"""Lots of material of an area: those that a crew chooses from, and those that bear a number that somebody typed."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any
from uuid import UUID

from sqlalchemy import Select, func, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.read_back import lot_of
from repairlog.records.tables.seen import works_in
from repairlog.records.tables.worked import LOT
from repairlog.trade.lot import Lot

OFFERED = 300
"""Lots that a page offers at the most: a stockroom has fewer in use, and any other is found by its number."""


def lots_of(scope: Scope, tx: Tx, *, area: UUID) -> list[Lot]:
    """The lots that came into that area last, the newest first."""
    rows = _standing(scope, area).join(ENTRY, ENTRY.c.id == LOT.c.id)
    newest = rows.order_by(ENTRY.c.happened_on.desc(), ENTRY.c.journal_index.desc()).limit(OFFERED)
    return [lot_of(row) for row in tx.connection.execute(newest)]


def lots_numbered(scope: Scope, tx: Tx, *, area: UUID, numbers: Collection[str]) -> list[Lot]:
    """The lots of that area that bear one of these numbers, capitals or not; several may bear the same."""
    same = or_(LOT.c.lot_number.in_(numbers), func.lower(LOT.c.lot_number).in_([each.lower() for each in numbers]))
    rows = _standing(scope, area).where(same).order_by(LOT.c.lot_number, LOT.c.expires_on, LOT.c.id)
    return [lot_of(row) for row in tx.connection.execute(rows)]


def lots_with(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[Lot]:
    """Those of these lots that are in scope, void ones too."""
    rows = tx.connection.execute(select(LOT).where(LOT.c.id.in_(ids), works_in(scope, LOT.c.area_id)))
    return [lot_of(row) for row in rows]


def _standing(scope: Scope, area: UUID) -> Select[Any]:
    return select(LOT).where(
        LOT.c.area_id == area, ~LOT.c.void, LOT.c.id.not_in(stood_for()), works_in(scope, LOT.c.area_id)
    )
