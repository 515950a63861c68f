"""Numbers that go on under another number: to which one they lead in the end, and which lead to one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
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
    which it goes on; None where it leads back to itself, they are too many to follow, or where the next one is none
    that the reader may see. `ring`: it leads back to itself. `open`: it is open all the same, since it would go on
    under none."""

    under: tuple[tuple[UUID, str], ...]
    ends_at: UUID | None
    ring: bool
    open: bool


def goes_on_as(scope: Scope, tx: Tx, *, leak: UUID) -> GoesOn | None:
    """Under which numbers that leak goes on; None where it was not joined to any, or is not in scope. A number that is
    open is the last: what it was joined to itself leads nowhere."""
    first = _with_id(scope, tx, leak=leak)
    if first is None or first.joined_to_id is None:
        return None
    found: list[tuple[UUID, str]] = []
    next_one = first.joined_to_id
    while len(found) < MOST and (each := _with_id(scope, tx, leak=next_one)) is not None:
        found.append((each.id, each.number))
        if each.joined_to_id is None or (each.status == "open" and first.status != "open"):
            return _goes_on(first, found, ends_at=each.id)
        if each.joined_to_id == leak:
            return _goes_on(first, found, ring=True)
        next_one = each.joined_to_id
    return _goes_on(first, found) if found else None


def _goes_on(first: Any, under: list[tuple[UUID, str]], *, ends_at: UUID | None = None, ring: bool = False) -> GoesOn:
    return GoesOn(under=tuple(under), ends_at=ends_at, ring=ring, open=first.status == "open")


def joined_to(scope: Scope, tx: Tx, *, leak: UUID) -> list[tuple[UUID, str]]:
    """Id and number of the leaks in scope that were joined to that one, in the order of their numbers."""
    rows = select(LEAK.c.id, LEAK.c.number).where(LEAK.c.joined_to_id == leak, sees_leak(scope, LEAK))
    return [(row.id, row.number) for row in tx.connection.execute(rows.order_by(LEAK.c.number))]


def _with_id(scope: Scope, tx: Tx, *, leak: UUID) -> Any:
    """Its row, of id, number, status and the leak it was joined to; None where it is not in scope."""
    shown = (LEAK.c.id, LEAK.c.number, LEAK.c.status, LEAK.c.joined_to_id)
    return tx.connection.execute(select(*shown).where(LEAK.c.id == leak, sees_leak(scope, LEAK))).one_or_none()
