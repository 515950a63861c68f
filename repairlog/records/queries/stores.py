"""Lots as the stores list them: expiring first, then by item; and what was taken of a lot."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Date, Row, Select, case, func, literal, or_, select, tuple_

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.store import Tx
from repairlog.records.tables.answering import answers_to
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_KIND, OF_ROWS
from repairlog.records.tables.known_as import bears_number
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.seen import sees_leak, works_in
from repairlog.records.tables.worked import LEAK, LOT

NEVER = date(9999, 12, 31)
"""Stands in the order for the last day of what has none."""

_RECEIVED, _SHELF = OF_KIND["lot_received"], OF_KIND["shelf_made"]
_MATERIAL = OF_ROWS["repair_attempted", "materials"]
GONE = ("used_up", "scrapped")
"""Nothing is left of a lot that stands so."""

_ORDER = (
    case((LOT.c.status.in_(GONE), 1), else_=0),
    func.coalesce(LOT.c.expires_on, literal(NEVER, Date())),
    LOT.c.item,
    LOT.c.id,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotsWanted:
    """Which lots are asked for; what is empty or None asks for nothing. `lot`: that one, void or not. `on_shelf`: what
    lies there as a whole, and is not gone. `number`: or an outside number, the whole of it. `item`, `maker`,
    `number`, `shelf`: a part of it, capitals or not. `expires_until`: whose last day is that one or an earlier."""

    lot: UUID | None = None
    on_shelf: UUID | None = None
    area: UUID | None = None
    item: str = ""
    maker: str = ""
    number: str = ""
    shelf: str = ""
    status: str = ""
    expires_until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LotRow:
    """A lot in a list. `expires_on`: empty where none was said; `lies_at`: a shelf's name, or as it was written."""

    id: UUID
    area: UUID
    item: str
    maker: str
    lot_number: str
    received: str
    received_on: str
    expires_on: str
    status: str
    lies_at: str
    void: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfRow:
    """A shelf or truck, to choose from."""

    id: UUID
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UseRow:
    """A repair that used a lot: the leak, the day, and how much, as written."""

    lot: UUID
    leak: UUID
    number: str
    on: str
    used: str


def lots_in_stores(
    scope: Scope, tx: Tx, *, where: LotsWanted, beyond: LotRow | None = None, most: int = 1
) -> list[LotRow]:
    """The lots in scope that are asked for and come after that one: those of which something is left before the others,
    then expiring first, then by item; at most `most`."""
    if scope.sees_nothing:
        return []
    page = _rows().where(works_in(scope, LOT.c.area_id), *_asked(where)).order_by(*_ORDER).limit(most)
    if beyond is not None:
        on = date.fromisoformat(beyond.expires_on) if beyond.expires_on else NEVER
        gone = literal(int(beyond.status in GONE))
        edge = tuple_(gone, literal(on, Date()), literal(beyond.item), literal(beyond.id, Id()))
        page = page.where(tuple_(*_ORDER) > edge)
    return [_read(row) for row in tx.connection.execute(page)]


def shelves_in(scope: Scope, tx: Tx, *, area: UUID) -> list[ShelfRow]:
    """The shelves and trucks of that area, by name; those named in error are none."""
    rows = (
        select(_SHELF.c.id, _SHELF.c.name)
        .join(ENTRY, ENTRY.c.id == _SHELF.c.id)
        .where(answers_to(_SHELF) == area, ~ENTRY.c.void, works_in(scope, answers_to(_SHELF)))
        .order_by(_SHELF.c.name, _SHELF.c.id)
    )
    return [ShelfRow(id=row.id, name=row.name) for row in tx.connection.execute(rows)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedShelf:
    """A shelf or truck. `what`: stockroom, yard, truck; `lots`: how many lots that are not gone lie there, as the whole
    of them was last brought."""

    id: UUID
    name: str
    what: str
    area: UUID
    lots: int


def shelves_listed(scope: Scope, tx: Tx, *, after: tuple[str, UUID] | None, most: int) -> list[ListedShelf]:
    """The shelves and trucks in scope, by name; at most `most`, after that name and id."""
    there = (
        LOT.c.shelf_id == _SHELF.c.id,
        ~LOT.c.void,
        func.coalesce(LOT.c.status, "").not_in(("used_up", "scrapped")),
    )
    lots = select(func.count()).where(*there).correlate(_SHELF).scalar_subquery()
    rows = (
        select(_SHELF.c.id, _SHELF.c.name, _SHELF.c.what, answers_to(_SHELF).label("area_id"), lots.label("lots"))
        .join(ENTRY, ENTRY.c.id == _SHELF.c.id)
        .where(~ENTRY.c.void, works_in(scope, answers_to(_SHELF)))
        .order_by(_SHELF.c.name, _SHELF.c.id)
    )
    if after is not None:
        rows = rows.where(tuple_(_SHELF.c.name, _SHELF.c.id) > tuple_(literal(after[0]), literal(after[1], Id())))
    return [
        ListedShelf(id=row.id, name=row.name, what=row.what, area=row.area_id, lots=row.lots)
        for row in tx.connection.execute(rows.limit(most))
    ]


def shelf_with(scope: Scope, tx: Tx, *, shelf: UUID) -> ListedShelf | None:
    """That shelf or truck, named in error or not; None where it is not in scope, or there is none."""
    row = tx.connection.execute(
        select(_SHELF.c.id, _SHELF.c.name, _SHELF.c.what, answers_to(_SHELF).label("area_id")).where(
            _SHELF.c.id == shelf, works_in(scope, answers_to(_SHELF))
        )
    ).first()
    return ListedShelf(id=row.id, name=row.name, what=row.what, area=row.area_id, lots=0) if row else None


def uses_of(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[UseRow]:
    """The repairs in scope that used one of these lots, the last one first."""
    rows = (
        select(_MATERIAL.c.lot_id, LEAK.c.id, LEAK.c.number, ENTRY.c.happened_on, _MATERIAL.c.used)
        .select_from(ABOUT)
        .join(ENTRY, ENTRY.c.id == ABOUT.c.entry_id)
        .join(_MATERIAL, (_MATERIAL.c.entry_id == ENTRY.c.id) & (_MATERIAL.c.lot_id == ABOUT.c.subject_id))
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .where(ABOUT.c.subject_id.in_(ids), ABOUT.c.as_what == "materials.lot", ~ENTRY.c.void)
        .where(sees_leak(scope, LEAK))
        .order_by(ENTRY.c.happened_on.desc(), LEAK.c.number, _MATERIAL.c.key)
    )
    return [
        UseRow(lot=row.lot_id, leak=row.id, number=row.number, on=row.happened_on.isoformat(), used=row.used or "")
        for row in tx.connection.execute(rows)
    ]


def _rows() -> Select[Any]:
    return (
        select(LOT, _RECEIVED.c.maker, _RECEIVED.c.received, ENTRY.c.happened_on, _SHELF.c.name.label("shelf"))
        .join(_RECEIVED, _RECEIVED.c.id == LOT.c.id)
        .join(ENTRY, ENTRY.c.id == LOT.c.id)
        .outerjoin(_SHELF, _SHELF.c.id == LOT.c.shelf_id)
    )


def _asked(where: LotsWanted) -> list[ColumnElement[bool]]:
    if where.lot is not None:
        return [LOT.c.id == where.lot]
    conditions: list[ColumnElement[bool]] = [~LOT.c.void, LOT.c.id.not_in(stood_for())]
    if where.area is not None:
        conditions.append(LOT.c.area_id == where.area)
    if where.on_shelf is not None:
        conditions += [LOT.c.shelf_id == where.on_shelf, func.coalesce(LOT.c.status, "").not_in(GONE)]
    parts: list[tuple[str, list[ColumnElement[Any]]]] = [
        (where.item, [LOT.c.item]),
        (where.maker, [_RECEIVED.c.maker]),
        (where.number, [LOT.c.lot_number]),
        (where.shelf, [LOT.c.lies_at, _SHELF.c.name]),
    ]
    for part, columns in (each for each in parts if each[0]):
        fits = [func.lower(each).contains(part.lower(), autoescape=True) for each in columns]
        conditions.append(or_(*fits, *([bears_number(LOT.c.id, part)] if columns[0] is LOT.c.lot_number else [])))
    if where.status:
        conditions.append(func.coalesce(LOT.c.status, "in_stock") == where.status)
    if where.expires_until is not None:
        conditions.append(LOT.c.expires_on <= where.expires_until)
    return conditions


def _read(row: Row[Any]) -> LotRow:
    return LotRow(
        id=row.id,
        area=row.area_id,
        item=row.item,
        maker=row.maker or "",
        lot_number=row.lot_number,
        received=row.received or "",
        received_on=row.happened_on.isoformat(),
        expires_on=row.expires_on.isoformat() if row.expires_on else "",
        status=row.status or "in_stock",
        lies_at=row.shelf or row.lies_at or "",
        void=row.void,
    )
