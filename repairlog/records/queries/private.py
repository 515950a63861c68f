"""Private values, which stand beside the journal: by the digest that the journal holds in their place."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.tables.facts import ENTRY, SUBJECT
from repairlog.records.tables.seen import sees_subject


@dataclass(frozen=True, slots=True, kw_only=True)
class Private:
    """`value`: empty once it was removed, on the day `removed_on`."""

    value: str
    removed_on: str


def private_values(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> dict[str, Private]:
    """The private values that these entries gave, where the subject of their story is in scope, by digest."""
    rows = tx.connection.execute(
        select(PRIVATE_VALUE.c.digest, PRIVATE_VALUE.c.value, PRIVATE_VALUE.c.removed_on)
        .join(ENTRY, ENTRY.c.id == PRIVATE_VALUE.c.entry_id)
        .join(SUBJECT, SUBJECT.c.id == ENTRY.c.subject_id)
        .where(PRIVATE_VALUE.c.entry_id.in_(ids), sees_subject(scope, SUBJECT))
    )
    return {
        row.digest: Private(value=row.value or "", removed_on=row.removed_on.isoformat() if row.removed_on else "")
        for row in rows
    }
