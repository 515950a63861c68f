"""Which record is kept, of those that were made one."""

from __future__ import annotations

from collections.abc import Collection
from uuid import UUID

from sqlalchemy import select

from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.worked import STANDS_FOR

LONGEST_CHAIN = 8
"""Steps from one record to the one that is kept for it; nobody makes longer chains, but for a ring."""

_KEPT = select(STANDS_FOR.c.other_id, STANDS_FOR.c.kept_id).where(STANDS_FOR.c.other_id.in_(IDS))


def kept_for(tx: Tx, ids: Collection[UUID]) -> dict[UUID, UUID]:
    """Of these records, those for which another is kept, with that one in the end. In a ring, and where two are kept
    for one, the smaller id is: so that everybody is shown the same."""
    step: dict[UUID, UUID] = {}
    asked = set(ids)
    for _turn in range(LONGEST_CHAIN):
        if not asked:
            break
        rows = tx.connection.execute(_KEPT.order_by(STANDS_FOR.c.kept_id.desc()), {"ids": list(asked)})
        found = {row.other_id: row.kept_id for row in rows}
        step |= found
        asked = set(found.values()) - step.keys()
    return {id: end for id in ids if (end := _end(id, step)) != id}


def _end(id: UUID, step: dict[UUID, UUID]) -> UUID:
    seen = [id]
    while (next_one := step.get(seen[-1])) is not None:
        if next_one in seen:
            return min(seen[seen.index(next_one) :])
        seen.append(next_one)
    return seen[-1]
