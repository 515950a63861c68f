"""An entry with all that puts it right, as sealed: what a correction of it must be read against."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from uuid import UUID

from sqlalchemy import select

from repairlog.entries.entry import Entry, Standing
from repairlog.entries.naming import target_of
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.effects.arranged import arranged
from repairlog.records.effects.chains import STORY
from repairlog.records.post.settings import SettingsChanged
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT, ENTRY

_THERE = select(ENTRY.c.id).where(ENTRY.c.id.in_(IDS))


def entries_there(tx: Tx, ids: Collection[UUID]) -> frozenset[UUID]:
    """Those of these ids under which an entry stands in the book."""
    return frozenset(tx.connection.execute(_THERE, {"ids": list(ids)}).scalars())


def demand_whole(fresh: Sequence[Entry], raw: Mapping[UUID, Standing]) -> None:
    """Raise SettingsChanged unless each correction and void was read against all that puts the same entry right by now.

    Two that were read side by side might leave what neither would. `raw`: the stories the call goes into, locked.
    """
    reads = [(target, entry.read_up_to) for entry in fresh if (target := target_of(entry.said)) in raw and target]
    if not any(read_up_to is not None for _target, read_up_to in reads):
        return
    roots = arranged(raw.values()).roots
    for target, read_up_to in reads:
        chain = [entry.index for id, entry in raw.items() if roots.get(id) == roots[target]]
        if read_up_to not in (None, max(chain)):
            raise SettingsChanged("what the call puts right was put right by others meanwhile; it is read again")


def chain_of(tx: Tx, id: UUID) -> list[Standing]:
    """The entry that `id` speaks about in the end, and every entry that puts it or one of those right, as sealed.

    Empty if there is no such entry.
    """
    stands_in = select(ABOUT.c.subject_id).where(ABOUT.c.entry_id == id, ABOUT.c.as_what.in_(STORY)).distinct()
    subjects = list(tx.connection.execute(stands_in).scalars())
    raw = {e.id: e for told in journal.stories(tx, subjects, as_what=STORY).values() for e in told}
    roots = arranged(raw.values()).roots
    return [entry for entry in raw.values() if id in roots and roots.get(entry.id) == roots[id]]
