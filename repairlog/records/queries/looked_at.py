"""What inspectors looked at: a list by moment and by who looked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Row, func, literal, or_, select, tuple_

from repairlog.access import Scope
from repairlog.access.actor import INSPECTOR
from repairlog.records.store import Tx
from repairlog.records.tables.beside import LOOKED_AT
from repairlog.records.tables.books import PERSON, ROLE
from repairlog.records.tables.worked import CALL, LEAK


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedLooks:
    """Which looks are asked for: None asks for nothing. `since`, `before`: from that moment on, before that one."""

    person: UUID | None = None
    since: datetime | None = None
    before: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRow:
    """One look. `page`: at which page of ours; `number`: of the leak or call that it was about, empty where it was
    about none."""

    id: UUID
    at: datetime
    person: UUID
    name: str
    page: str
    address: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookerRow:
    """Somebody who is or was an inspector."""

    id: UUID
    name: str


def looks(scope: Scope, tx: Tx, *, looked: WantedLooks, beyond: LookRow | None, most: int) -> list[LookRow]:
    """What inspectors of areas in scope looked at, the latest first; at most `most`, beyond that one."""
    if not (scope.every_area or scope.areas):
        return []
    wanted = (
        select(LOOKED_AT, PERSON.c.name, func.coalesce(LEAK.c.number, CALL.c.number).label("number"))
        .join(PERSON, PERSON.c.id == LOOKED_AT.c.person_id)
        .outerjoin(LEAK, LEAK.c.id == LOOKED_AT.c.subject_id)
        .outerjoin(CALL, CALL.c.id == LOOKED_AT.c.subject_id)
        .where(*_conditions(scope, looked))
        .order_by(LOOKED_AT.c.at.desc(), LOOKED_AT.c.id.desc())
        .limit(most)
    )
    if beyond is not None:
        wanted = wanted.where(tuple_(LOOKED_AT.c.at, LOOKED_AT.c.id) < tuple_(*_edge(beyond)))
    return [_read(row) for row in tx.connection.execute(wanted)]


def look_with(scope: Scope, tx: Tx, *, id: UUID) -> LookRow | None:
    """That look, where it is one of an inspector of an area in scope."""
    row = tx.connection.execute(
        select(LOOKED_AT, PERSON.c.name)
        .join(PERSON, PERSON.c.id == LOOKED_AT.c.person_id)
        .where(LOOKED_AT.c.id == id, *_conditions(scope, WantedLooks()))
    ).one_or_none()
    return _read(row) if row and (scope.every_area or scope.areas) else None


def lookers(scope: Scope, tx: Tx) -> list[LookerRow]:
    """Who is or was an inspector of an area in scope, by name."""
    if not (scope.every_area or scope.areas):
        return []
    rows = select(PERSON.c.id, PERSON.c.name).where(PERSON.c.id.in_(_inspectors(scope)))
    return [
        LookerRow(id=row.id, name=row.name) for row in tx.connection.execute(rows.order_by(PERSON.c.name, PERSON.c.id))
    ]


def _inspectors(scope: Scope) -> Any:
    here = [] if scope.every_area else [or_(ROLE.c.area_id.is_(None), ROLE.c.area_id.in_(scope.areas))]
    return select(ROLE.c.person_id).where(ROLE.c.role == INSPECTOR, *here)


def _conditions(scope: Scope, looked: WantedLooks) -> list[ColumnElement[bool]]:
    # whoever holds every area sees looks of somebody whose role was made void since, too
    conditions: list[ColumnElement[bool]] = [] if scope.every_area else [LOOKED_AT.c.person_id.in_(_inspectors(scope))]
    conditions += [LOOKED_AT.c.person_id == looked.person] if looked.person else []
    conditions += [LOOKED_AT.c.at >= looked.since] if looked.since else []
    return conditions + ([LOOKED_AT.c.at < looked.before] if looked.before else [])


def _edge(row: LookRow) -> tuple[ColumnElement[Any], ColumnElement[Any]]:
    return literal(row.at, LOOKED_AT.c.at.type), literal(row.id, LOOKED_AT.c.id.type)


def _read(row: Row[Any]) -> LookRow:
    return LookRow(
        id=row.id,
        at=row.at,
        person=row.person_id,
        name=row.name,
        page=row.page,
        address=row.address,
        number=getattr(row, "number", None) or "",
    )
