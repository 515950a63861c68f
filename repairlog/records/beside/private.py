"""Personal data that its retention date has reached, and its removal: digest, day and reason stay."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from sqlalchemy import ColumnElement, exists, select, update

from repairlog.records.store import Store
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.tables.facts import ENTRY


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """A private value whose time is over. `path`: where in the entry; `came_on`: the day, in UTC, on which that came
    in."""

    entry: UUID
    path: str
    came_on: str


def due(store: Store, *, days: int, at: datetime) -> list[Due]:
    """The private values that came in that many days before that moment, or earlier, and are still there; the oldest
    first. They never hold the value itself."""
    rows = (
        select(ENTRY.c.id, PRIVATE_VALUE.c.path, ENTRY.c.received_at)
        .join(PRIVATE_VALUE, PRIVATE_VALUE.c.entry_id == ENTRY.c.id)
        .where(PRIVATE_VALUE.c.removed_on.is_(None), _reached(days=days, at=at))
        .order_by(ENTRY.c.journal_index, PRIVATE_VALUE.c.path)
    )
    with store.reading() as tx:
        return [
            Due(entry=row.id, path=row.path, came_on=row.received_at.date().isoformat())
            for row in tx.connection.execute(rows)
        ]


def remove_due(store: Store, *, days: int, at: datetime) -> int:
    """Remove those values with their salts, so that nobody can find out by trying what they were; how many there were.
    The day of removal is that moment's, in UTC."""
    came = exists().where(ENTRY.c.id == PRIVATE_VALUE.c.entry_id, _reached(days=days, at=at))
    gone = {"value": None, "salt": None, "removed_on": at.date(), "removed_because": f"kept for {days} days"}
    with store.writing() as tx:
        removed = tx.connection.execute(
            update(PRIVATE_VALUE).where(PRIVATE_VALUE.c.removed_on.is_(None), came).values(gone)
        )
        return removed.rowcount


def _reached(*, days: int, at: datetime) -> ColumnElement[bool]:
    return ENTRY.c.received_at <= at - timedelta(days=days)
