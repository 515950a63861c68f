"""Leaks that hang together by joins: those to which a leak of the call leads, and those that are folded with it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.entries.entry import Entry
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import RIGHTING
from repairlog.entries.naming import ids_brought
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.rested import joins
from repairlog.records.tables.worked import LEAK
from repairlog.trade.joins import Join

MAY_END = ("leak_ended", "leak_reopened", "repair_attempted", "tested", "source_added", *RIGHTING)
"""Kinds of entries that may change by which ending a leak is ended, or whether it was opened in error."""

_JOINED_HERE = select(LEAK.c.id).where(LEAK.c.joined_to_id.in_(IDS))


@dataclass(frozen=True, slots=True, kw_only=True)
class HangsTogether:
    """`onward`: the leaks to which those of the call lead, or will, one after the other. `ring`: those among them that
    lead back, which are folded with it. `here`: those that were joined to one of the call's."""

    onward: frozenset[UUID] = frozenset()
    ring: frozenset[UUID] = frozenset()
    here: frozenset[UUID] = frozenset()


def may_end(fresh: Sequence[Entry]) -> bool:
    """Whether one of these entries may change by which ending a leak is ended."""
    return any(entry.kind in MAY_END for entry in fresh)


def hang_together(tx: Tx, leaks: Collection[UUID], *, fresh: Sequence[Entry]) -> HangsTogether:
    """What hangs together with the leaks into whose stories the call goes. `leaks`: their ids; others do no harm."""
    brought = {id for entry in fresh if (id := as_id(entry.said.get("joined_to")))}
    brought |= {id for entry in fresh for id in ids_brought(entry.said)}
    known = {id: each for id, each in joins(tx, {*leaks, *brought}).items() if isinstance(each, Join)}
    reached = (brought & known.keys()) | {each.to for each in known.values() if each.to}
    if not may_end(fresh):
        return HangsTogether(onward=frozenset(reached))
    here = frozenset(tx.connection.execute(_JOINED_HERE, {"ids": list(leaks)}).scalars())
    ring = reached if reached & set(leaks) else set()
    return HangsTogether(onward=frozenset(reached), ring=frozenset(ring), here=here)
