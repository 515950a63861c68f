"""Private values are told to whoever may see the leak that they stand in, and to nobody else."""

from __future__ import annotations

from datetime import date

from repairlog.access import EVERYTHING, NOTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.private import Private, private_values
from repairlog.records.store import Store
from repairlog.records.tables.beside import PRIVATE_VALUE
from tests.makers import book as m


def test_a_private_value_is_told_within_the_scope_until_it_is_removed(store: Store) -> None:
    book = m.opened(store)
    leak = m.leak(book, area=book.other_area, reporter_name="J. Penrose")
    book.say(leak)

    def told(scope: Scope) -> list[Private]:
        with store.reading() as tx:
            return list(private_values(scope, tx, ids=[read_id(leak["id"])]).values())

    there, elsewhere = (Scope(areas=frozenset({read_id(area)})) for area in (book.other_area, book.area))
    assert told(EVERYTHING) == told(there) == [Private(value="J. Penrose", removed_on="")]
    assert told(elsewhere) == told(NOTHING) == []
    with store.writing() as tx:
        gone = {"value": None, "salt": None, "removed_on": date(2026, 4, 1)}
        tx.connection.execute(PRIVATE_VALUE.update().values(gone))
    assert told(there) == [Private(value="", removed_on="2026-04-01")]
