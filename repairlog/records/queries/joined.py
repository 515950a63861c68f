"""Numbers that go on under another number: to which one they lead in the end, and which lead to one."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import LEAK

MOST = 20
"""Numbers that are followed one after the other; nobody joins as many by hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesOn:
    """`under`: id and number of each leak that it was joined to, one after the other. `ends_at`: the last one, under
    which it goes on; None where they lead in a ring, are too many to follow, or where the next one is none that the
    reader may see. `ring`: they lead back to one of them."""

    under: tuple[tuple[UUID, str], ...]
    ends_at: UUID | None
    ring: bool


def goes_on_as(scope: Scope, tx: Tx, *, leak: UUID) -> GoesOn | None:
    """Under which numbers that leak goes on; None where it was not joined to any, or is not in scope."""
    found: list[tuple[UUID, str]] = []
    seen, next_one = {leak}, _joined_to(scope, tx, leak=leak)
    while next_one is not None and len(found) < MOST:
        id, number, further = next_one
        found.append((id, number))
        if further is None:
            return GoesOn(under=tuple(found), ends_at=id, ring=False)
        if id in seen or further in seen | {id}:
            return GoesOn(under=tuple(found), ends_at=None, ring=True)
        seen.add(id)
        next_one = _with_id(scope, tx, leak=further)
    return GoesOn(under=tuple(found), ends_at=None, ring=False) if found else None


def joined_to(scope: Scope, tx: Tx, *, leak: UUID) -> list[tuple[UUID, str]]:
    """Id and number of the leaks in scope that were joined to that one, in the order of their numbers."""
    rows = select(LEAK.c.id, LEAK.c.number).where(LEAK.c.joined_to_id == leak, sees_leak(scope, LEAK))
    return [(row.id, row.number) for row in tx.connection.execute(rows.order_by(LEAK.c.number))]


def _joined_to(scope: Scope, tx: Tx, *, leak: UUID) -> tuple[UUID, str, UUID | None] | None:
    first = _with_id(scope, tx, leak=leak)
    return _with_id(scope, tx, leak=first[2]) if first and first[2] else None


def _with_id(scope: Scope, tx: Tx, *, leak: UUID) -> tuple[UUID, str, UUID | None] | None:
    asked = select(LEAK.c.id, LEAK.c.number, LEAK.c.joined_to_id).where(LEAK.c.id == leak, sees_leak(scope, LEAK))
    row = tx.connection.execute(asked).one_or_none()
    return (row.id, row.number, row.joined_to_id) if row else None
