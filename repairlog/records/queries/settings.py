"""Areas and kinds of subjects as they stand: what must be known for an entry to be understood."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import Select, or_, select

from repairlog.access import Scope
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.answering import answers_to
from repairlog.records.tables.facts import OF_KIND, SUBJECT
from repairlog.records.tables.read_back import area_of
from repairlog.records.tables.seen import sees_some, sees_subject
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import AREA
from repairlog.trade.area import Area

_OPENED = OF_KIND["operator_opened"]
_ZONE = select(_OPENED.c.zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectRow:
    """A subject's kind and its area; None for what belongs to no area."""

    id: UUID
    kind: str
    area: UUID | None


def areas(scope: Scope, tx: Tx) -> list[Area]:
    """The operating areas of which anything is in scope, by name."""
    rows = tx.connection.execute(_areas_in(scope))
    return [area_of(row) for row in rows]


@lru_cache(maxsize=128)  # every page and every call asks it, in one of few scopes
def _areas_in(scope: Scope) -> Select[Any]:
    return select(AREA).where(sees_some(scope, AREA.c.id)).order_by(AREA.c.name, AREA.c.id)


def subjects(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[SubjectRow]:
    """Those of these subjects that are in scope; a source is in the area of its leak, an area in itself."""
    rows = tx.connection.execute(_subjects_in(scope), {"ids": list(ids)})
    return [SubjectRow(id=row.id, kind=row.kind, area=row.area_id or row.of_leak) for row in rows]


@lru_cache(maxsize=128)
def _subjects_in(scope: Scope) -> Select[Any]:
    leak = SUBJECT.alias("leak")
    area = answers_to(leak)
    seen = (within(scope, SUBJECT.c.id), sees_subject(scope, SUBJECT), within(scope, area))
    return (
        select(SUBJECT.c.id, SUBJECT.c.kind, answers_to(SUBJECT).label("area_id"), area.label("of_leak"))
        .outerjoin(leak, leak.c.id == SUBJECT.c.within_id)
        .where(SUBJECT.c.id.in_(IDS), or_(*seen))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class OperatorRow:
    """The operator whose book it is."""

    id: UUID
    name: str
    zone: str


def operator(scope: Scope, tx: Tx) -> OperatorRow | None:
    """The operator, for whoever sees every area; None for all others, and before the book is opened."""
    if not scope.every_area:
        return None
    row = tx.connection.execute(select(_OPENED.c.id, _OPENED.c.name, _OPENED.c.zone)).one_or_none()
    return OperatorRow(id=row.id, name=row.name, zone=row.zone) if row else None


def operator_zone(scope: Scope, tx: Tx) -> str | None:
    """The operator's own time zone; None before its book is opened, or for a scope that sees nothing."""
    if scope.sees_nothing:
        return None
    return tx.connection.execute(_ZONE).scalar()
