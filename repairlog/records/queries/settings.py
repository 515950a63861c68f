"""Areas and kinds of subjects as they stand: what must be known for an entry to be understood."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import Select, func, or_, select

from repairlog.access import Scope
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.answering import answers_to
from repairlog.records.tables.facts import ENTRY, OF_KIND, SUBJECT
from repairlog.records.tables.read_back import area_of
from repairlog.records.tables.seen import sees_some, sees_subject
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import AREA, MOVED
from repairlog.trade.area import Area

_OPENED = OF_KIND["operator_opened"]
_ZONE = select(_OPENED.c.zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRow:
    """A move of a subject. `index`: its place in the journal; `on`: its legal day, `YYYY-MM-DD`."""

    index: int
    on: str
    to_area: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectRow:
    """A subject's kind and its area; None for what belongs to no area. `first`: the area it was opened in, where it was
    moved since by `moves`, in the order in which they happened."""

    id: UUID
    kind: str
    area: UUID | None
    first: UUID | None = None
    moves: tuple[MoveRow, ...] = ()

    def area_on(self, on: str) -> UUID | None:
        """The area to which it answered on that day (`YYYY-MM-DD`); on that of a move, the one to which it went."""
        before = [move.to_area for move in self.moves if move.on <= on]
        return before[-1] if before else (self.first or self.area)

    def as_known_before(self, index: int) -> SubjectRow:
        """The same without the moves that came into the journal at that place or later."""
        known = tuple(move for move in self.moves if move.index < index)
        now = known[-1].to_area if known else (self.first or self.area)
        return replace(self, area=now, moves=known)


def areas(scope: Scope, tx: Tx) -> list[Area]:
    """The operating areas of which anything is in scope, by name."""
    rows = tx.connection.execute(_areas_in(scope))
    return [area_of(row) for row in rows]


@lru_cache(maxsize=128)  # every page and every call asks it, in one of few scopes
def _areas_in(scope: Scope) -> Select[Any]:
    return select(AREA).where(sees_some(scope, AREA.c.id)).order_by(AREA.c.name, AREA.c.id)


def subjects(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[SubjectRow]:
    """Those of these subjects that are in scope; a source is in the area of its leak, an area in itself."""
    found: dict[UUID, SubjectRow] = {}
    for row in tx.connection.execute(_subjects_in(scope), {"ids": list(ids)}):
        first = row.area_id or row.of_leak
        before = found.get(row.id, SubjectRow(id=row.id, kind=row.kind, area=first))
        if row.to_area_id is not None:
            move = MoveRow(index=row.journal_index, on=row.moved_on.isoformat(), to_area=row.to_area_id)
            before = replace(before, area=move.to_area, first=first, moves=(*before.moves, move))
        found[row.id] = before
    return list(found.values())


@lru_cache(maxsize=128)
def _subjects_in(scope: Scope) -> Select[Any]:
    leak = SUBJECT.alias("leak")
    seen = (within(scope, SUBJECT.c.id), sees_subject(scope, SUBJECT), within(scope, answers_to(leak)))
    return (
        select(SUBJECT.c.id, SUBJECT.c.kind, SUBJECT.c.area_id, leak.c.area_id.label("of_leak"))
        .add_columns(ENTRY.c.journal_index, MOVED.c.moved_on, MOVED.c.to_area_id)
        .outerjoin(leak, leak.c.id == SUBJECT.c.within_id)
        .outerjoin(MOVED, MOVED.c.subject_id == func.coalesce(SUBJECT.c.within_id, SUBJECT.c.id))
        .outerjoin(ENTRY, ENTRY.c.id == MOVED.c.entry_id)
        .where(SUBJECT.c.id.in_(IDS), or_(*seen))
        .order_by(SUBJECT.c.id, MOVED.c.number)
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
