"""Records that the call makes one, or may part again: what rests on any of them is folded again."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from uuid import UUID

from sqlalchemy import select

from repairlog.entries.entry import Entry
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import RIGHTING
from repairlog.entries.naming import ids_brought
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.effects.chains import STORY
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY

_MADE_ONE = select(ENTRY.c.subject_id).where(ENTRY.c.subject_id.in_(IDS), ENTRY.c.kind == "made_one").distinct()


def said_same(tx: Tx, stories: Collection[UUID], *, fresh: Sequence[Entry]) -> frozenset[UUID]:
    """Records that the call says to be the same as one of these, or that anything ever said which it may put right; ids
    of other things may be among them. `stories`: those into which the call goes."""
    found = {read_id(entry.said["other"]) for entry in fresh if entry.kind == "made_one"}
    if any(entry.kind in RIGHTING for entry in fresh):
        there = list(tx.connection.execute(_MADE_ONE, {"ids": list(stories)}).scalars())
        for told in journal.stories(tx, there, as_what=STORY).values() if there else ():
            found |= {read_id(entry.said["other"]) for entry in told if entry.kind == "made_one"}
            found |= {id for entry in told for id in ids_brought(entry.said)}
        found |= {id for entry in fresh for id in ids_brought(entry.said)} if there else set()
    return frozenset(found)
