"""Folding the stories that a call goes into, before and after it, and writing what differs."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from sqlalchemy import exists, or_, select

from repairlog.entries.kinds import KINDS
from repairlog.records.effects.arranged import Arranged
from repairlog.records.effects.folds import OWNER
from repairlog.records.post.ground import Ground
from repairlog.records.store import Tx
from repairlog.records.tables import beside, facts
from repairlog.records.tables.picture import difference, merged
from repairlog.records.tables.rested import open_rulebooks
from repairlog.records.tables.write import write
from repairlog.trade.joins import join
from repairlog.trade.rests import FOLDS, Rested, rests_of

_NAMES_STREETS = tuple(name for name, kind in KINDS.items() if kind.opens in facts.NUMBERED)


def write_what_changed(tx: Tx, *, before: Arranged, after: Arranged, on: Ground) -> None:
    """Write what differs between two arrangements of the same stories; a stale subject's rows are written whole.

    The rows of `entry` and `about` are not among them: they are written once the places in the journal are known.
    """
    changed = [id for id, entry in after.entries.items() if before.entries.get(id) != entry]
    old = merged(before.facts_of(id) for id in changed)
    new = merged(after.facts_of(id) for id in changed)
    gone = old.get(facts.STREET, {}).keys() - new.get(facts.STREET, {}).keys()
    old[facts.STREET] = {}
    subjects = dict(on.folded)
    for id in [id for id in subjects if on.subjects[id].stale]:
        _forget(tx, id)
    standing = {id: kind for id, kind in subjects.items() if not on.subjects[id].stale}
    old |= before.worked(standing, open_rulebooks(tx, rests_of(on.rested.values())))
    new |= after.worked(subjects, open_rulebooks(tx, rests_of(_rested_after(after, on))))
    write(tx, difference(old, new))
    for street in sorted(gone):  # others may lie in it; it stays while one does
        _drop_if_unnamed(tx, street[0])


def _drop_if_unnamed(tx: Tx, street: UUID) -> None:
    """Locked first, so that the question is asked after whoever writes the street just now has committed."""
    here = facts.STREET.c.id == street
    tx.connection.execute(select(facts.STREET.c.id).where(here).with_for_update())
    named = [exists().where(facts.OF_KIND[kind].c.street_id == street) for kind in _NAMES_STREETS]
    tx.connection.execute(facts.STREET.delete().where(here, ~or_(*named)))


def _rested_after(after: Arranged, on: Ground) -> Iterable[Rested]:
    folds = {id: fold for id, kind in on.folded.items() if (fold := FOLDS.get(kind))}
    folded = {id: fold(after.stories.get(id, ())) for id, fold in folds.items()}
    leaks = {id: after.stories.get(id, ()) for id, kind in on.folded.items() if kind == "leak"}
    joined = any(entry.text("joined_to") for told in leaks.values() for entry in told)
    joins = {id: join(told) for id, told in leaks.items()} if joined else {}
    return [each for each in {**on.rested, **folded, **joins}.values() if each]


def _forget(tx: Tx, subject: UUID) -> None:
    """Take away the worked rows of a stale subject: it is written anew, and no longer stale."""
    for table, owner in OWNER.items():
        tx.connection.execute(table.delete().where(table.c[owner] == subject))
    tx.connection.execute(beside.STALE.delete().where(beside.STALE.c.subject_id == subject))
