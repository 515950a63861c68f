"""Operating areas with what lies in them: leaks, numbers given, and who has a role there on a day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from sqlalchemy import Table, func, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import PERSON, ROLE
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import AREA_COUNTER, CALL_COUNTER, LEAK


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaksThere:
    """How many leaks of an area are open, and how many there are in all."""

    open: int
    all: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """How far an area has counted in a year: the last number of a leak and of a call; 0 where none was given."""

    year: int
    leaks: int
    calls: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderRow:
    """Somebody's role, in that area or in every one. `until_on`: empty where it is open."""

    person: UUID
    name: str
    role: str
    every_area: bool
    until_on: str


def leaks_there(scope: Scope, tx: Tx) -> Mapping[UUID, LeaksThere]:
    """By area in scope, how many leaks it has; areas without any are left out."""
    rows = (
        select(LEAK.c.area_id, LEAK.c.status, func.count().label("leaks"))
        .where(sees_leak(scope, LEAK))
        .group_by(LEAK.c.area_id, LEAK.c.status)
    )
    found: dict[UUID, LeaksThere] = {}
    for row in tx.connection.execute(rows):
        before = found.get(row.area_id, LeaksThere(open=0, all=0))
        opened = row.leaks if row.status == "open" else 0
        found[row.area_id] = LeaksThere(open=before.open + opened, all=before.all + row.leaks)
    return found


def counted(scope: Scope, tx: Tx, *, area: UUID) -> list[Counted]:
    """How far that area has counted, the last year first."""
    if not scope.every_area and area not in scope.areas:
        return []
    leaks, calls = (_lasts(tx, of, area) for of in (AREA_COUNTER, CALL_COUNTER))
    years = sorted({*leaks, *calls}, reverse=True)
    return [Counted(year=year, leaks=leaks.get(year, 0), calls=calls.get(year, 0)) for year in years]


def _lasts(tx: Tx, counter: Table, area: UUID) -> dict[int, int]:
    rows = tx.connection.execute(select(counter.c.year, counter.c.last).where(counter.c.area_id == area))
    return {row.year: row.last for row in rows}


def holders(scope: Scope, tx: Tx, *, area: UUID, on: date) -> list[HolderRow]:
    """Who has a role in that area on that day, by role and name."""
    if not scope.every_area and area not in scope.areas:
        return []
    rows = (
        select(ROLE.c.role, ROLE.c.area_id, ROLE.c.until_on, PERSON.c.id, PERSON.c.name)
        .join(PERSON, PERSON.c.id == ROLE.c.person_id)
        .where(
            or_(ROLE.c.area_id == area, ROLE.c.area_id.is_(None)),
            ROLE.c.from_on <= on,
            or_(ROLE.c.until_on.is_(None), ROLE.c.until_on >= on),
            ~PERSON.c.void,
        )
        .order_by(ROLE.c.role, PERSON.c.name, PERSON.c.id)
    )
    return [
        HolderRow(
            person=row.id,
            name=row.name,
            role=row.role,
            every_area=row.area_id is None,
            until_on=row.until_on.isoformat() if row.until_on else "",
        )
        for row in tx.connection.execute(rows)
    ]
