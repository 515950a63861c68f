"""Leaks as an old list knows them: by the numbers that they bear or bore."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from uuid import UUID

from sqlalchemy import ColumnElement, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import OF_KIND, OF_ROWS, SUBJECT
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import LEAK

_OPENED = OF_KIND["leak_opened"]
_OUTSIDE = OF_ROWS["leak_opened", "outside_numbers"]


def operator_of(scope: Scope, tx: Tx) -> UUID | None:
    """The operator whose book it is; None before it is opened, or for a scope that sees nothing."""
    if not scope.every_area and not scope.areas:
        return None
    found: UUID | None = tx.connection.execute(select(SUBJECT.c.id).where(SUBJECT.c.kind == "operator")).scalar()
    return found


def leaks_numbered(scope: Scope, tx: Tx, *, area: UUID, numbers: Collection[str]) -> Mapping[str, UUID]:
    """The leaks of that area that bear these numbers, by number; those opened in error are left out."""
    rows = select(LEAK.c.number, LEAK.c.id).where(LEAK.c.number.in_(numbers), *_live(scope, area))
    return {row.number: row.id for row in tx.connection.execute(rows)}


def leaks_listed_otherwise(scope: Scope, tx: Tx, *, area: UUID) -> Mapping[str, UUID]:
    """The leaks of that area that an older list knows by another number than they bear, by that number: it was taken
    when they came, or was said of them later, or stands among the numbers that others know them by, as of a `list`."""
    opened = (
        select(_OPENED.c.number, LEAK.c.id)
        .join(LEAK, LEAK.c.id == _OPENED.c.id)
        .where(_OPENED.c.number != LEAK.c.number, *_live(scope, area))
    )
    outside = (
        select(_OUTSIDE.c.number, LEAK.c.id)
        .join(LEAK, LEAK.c.id == _OUTSIDE.c.entry_id)
        .where(_OUTSIDE.c.what == "list", *_live(scope, area))
    )
    rows = [row for each in (outside, opened) for row in tx.connection.execute(each)]
    return {row.number: row.id for row in rows}


def _live(scope: Scope, area: UUID) -> tuple[ColumnElement[bool], ...]:
    return (LEAK.c.area_id == area, LEAK.c.status != "opened_in_error", within(scope, LEAK.c.area_id))
