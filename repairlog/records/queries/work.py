"""Work on leaks that was given to somebody and is still to be done."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Date, Row, Select, literal, or_, select, tuple_

from repairlog.access import Scope
from repairlog.records.columns import IDS, Id
from repairlog.records.queries.leaks import Edge
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, PERSON
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.in_hand import held_by
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import LEAK, WORK

_OPENED = OF_KIND["leak_opened"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRow:
    """`whom`: who has it, by name; empty where nobody was named. `number` and the address: of its leak. `by_on`: empty
    where no day was said. `waits_on`: a code, empty where it does not wait."""

    id: UUID
    leak: UUID
    work: str
    whom: str
    given_on: str
    by_on: str
    number: str
    grade: str
    rank: int | None
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str
    waits_on: str
    area: UUID


def work_of(scope: Scope, tx: Tx, *, leak: UUID) -> list[WorkRow]:
    """The work on that leak that is in somebody's hands, in the order in which it was given."""
    rows = tx.connection.execute(_work(scope).where(WORK.c.leak_id == leak).order_by(WORK.c.given_on, WORK.c.id))
    return [_read(row) for row in rows]


def work_in_hand(scope: Scope, tx: Tx, *, person: UUID, on: date, most: int) -> list[WorkRow]:
    """The work that a person has in hand, or a crew that they belong to on that day: what is to be done first comes
    first."""
    mine = held_by(person, on=on)
    rows = _work(scope).where(mine).order_by(WORK.c.by_on.is_(None), WORK.c.by_on, WORK.c.given_on, WORK.c.id)
    return [_read(row) for row in tx.connection.execute(rows.limit(most))]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedWork:
    """Which work is asked for; what is empty or None asks for nothing. `whom`: part of the name of whoever has it."""

    area: UUID | None = None
    work: str = ""
    whom: str = ""


def work_listed(scope: Scope, tx: Tx, *, giving: WantedWork, beyond: Edge | None, most: int) -> list[WorkRow]:
    """The work in scope that is in somebody's hands, what was given last first; at most `most`, beyond that edge."""
    if scope.sees_nothing:
        return []
    rows = _work(scope)
    if giving.area:
        rows = rows.where(LEAK.c.area_id == giving.area)
    if giving.work:
        rows = rows.where(WORK.c.work == giving.work)
    if giving.whom:
        names = (PERSON.c.name, CREW.c.name, WORK.c.named)
        rows = rows.where(or_(*(name.icontains(giving.whom, autoescape=True) for name in names)))
    if beyond is not None:
        edge = tuple_(literal(beyond.on, Date()), literal(beyond.id, Id()))
        rows = rows.where(tuple_(WORK.c.given_on, WORK.c.id) < edge)
    page = rows.order_by(WORK.c.given_on.desc(), WORK.c.id.desc()).limit(most)
    return [_read(row) for row in tx.connection.execute(page)]


def work_on(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> list[WorkRow]:
    """The work on those leaks that is in somebody's hands, in the order in which it was given."""
    rows = _work(scope).where(WORK.c.leak_id.in_(IDS)).order_by(WORK.c.given_on, WORK.c.id)
    return [_read(row) for row in tx.connection.execute(rows, {"ids": list(leaks)})]


def _work(scope: Scope) -> Select[Any]:
    names = (PERSON.c.name.label("person"), CREW.c.name.label("crew"))
    of_leak = (
        LEAK.c.number,
        LEAK.c.grade_now,
        LEAK.c.rank_now,
        LEAK.c.house_number,
        LEAK.c.cross_street,
        LEAK.c.area_id,
    )
    address = (_OPENED.c.street, _OPENED.c.town, _OPENED.c.location, LEAK.c.waits_on)
    return (
        select(WORK, *names, *of_leak, *address)
        .join(LEAK, LEAK.c.id == WORK.c.leak_id)
        .join(_OPENED, _OPENED.c.id == LEAK.c.id)
        .outerjoin(PERSON, PERSON.c.id == WORK.c.person_id)
        .outerjoin(CREW, CREW.c.id == WORK.c.crew_id)
        .where(sees_leak(scope, LEAK))
    )


def _read(row: Row[Any]) -> WorkRow:
    names: Sequence[str | None] = (row.crew, row.person, row.named)
    return WorkRow(
        id=row.id,
        leak=row.leak_id,
        work=row.work,
        whom=", ".join(name for name in names if name),
        given_on=row.given_on.isoformat(),
        by_on=row.by_on.isoformat() if row.by_on else "",
        number=row.number,
        grade=row.grade_now or "",
        rank=row.rank_now,
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
        waits_on=row.waits_on or "",
        area=row.area_id,
    )
