"""Folding again what was marked stale, some leaks a commit, while posts go on."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID

from sqlalchemy import select
from sqlalchemy.exc import DBAPIError

from repairlog.records.effects.arranged import arranged
from repairlog.records.post.folding import write_what_changed
from repairlog.records.post.ground import Again, ground_of_leaks
from repairlog.records.store import Store, is_worth_another_turn
from repairlog.records.tables.beside import STALE

LEAKS_AT_ONCE = 100


def something_waits(store: Store) -> bool:
    """Whether a leak waits to be worked out again."""
    with store.reading() as tx:
        return tx.connection.execute(select(STALE.c.subject_id).limit(1)).first() is not None


def fold_stale(store: Store, *, on_progress: Callable[[int], None] = lambda _done: None) -> int:
    """Work every stale leak out again, the oldest mark first; how many there were. `on_progress`: told after each
    commit how many are done.

    Raises store.Busy where others hold them too long; what is done by then stays done.
    """
    done, also = 0, frozenset[UUID]()
    while True:
        try:
            with store.writing() as tx:
                oldest = select(STALE.c.subject_id).order_by(STALE.c.stale_since, STALE.c.subject_id)
                leaks = set(tx.connection.execute(oldest.limit(LEAKS_AT_ONCE)).scalars())
                on = ground_of_leaks(tx, leaks, also=also)
                told = arranged(on.raw.values())
                write_what_changed(tx, before=told, after=told, on=on)
        except Again as again:
            also |= again.also
            continue
        except DBAPIError as error:
            if not is_worth_another_turn(error):
                raise
            continue
        done += len(leaks)
        on_progress(done)
        if len(leaks) < LEAKS_AT_ONCE:
            return done
