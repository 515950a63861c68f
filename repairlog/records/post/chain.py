"""An entry with all that puts it right, as sealed: what a correction of it must be read against."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from repairlog.entries.entry import Standing
from repairlog.records import journal
from repairlog.records.effects.arranged import arranged
from repairlog.records.effects.chains import STORY
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT


def chain_of(tx: Tx, id: UUID) -> list[Standing]:
    """The entry that `id` speaks about in the end, and every entry that puts it or one of those right, as sealed.

    Empty if there is no such entry.
    """
    stands_in = select(ABOUT.c.subject_id).where(ABOUT.c.entry_id == id, ABOUT.c.as_what.in_(STORY)).distinct()
    subjects = list(tx.connection.execute(stands_in).scalars())
    raw = {e.id: e for told in journal.stories(tx, subjects, as_what=STORY).values() for e in told}
    roots = arranged(raw.values()).roots
    return [entry for entry in raw.values() if id in roots and roots.get(entry.id) == roots[id]]
