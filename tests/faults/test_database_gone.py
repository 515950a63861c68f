"""The database itself ends a post: a connection cut by the server, a disk that is full."""

from __future__ import annotations

import pytest
from sqlalchemy import event, text
from sqlalchemy.exc import DBAPIError

from repairlog.entries.entry import Moments
from repairlog.intake.call import understand
from repairlog.records.post import post
from repairlog.records.store import Away
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import changed, copy_of
from tests.makers.every_kind import every_kind


def cut_before(store, number):
    """Have the server end the session of the statement of that number, just before it. Gives the listener."""
    seen = []

    def before(connection, _cursor, _text, _parameters, _context, _executemany):
        seen.append(1)
        if len(seen) == number:
            pid = connection.connection.driver_connection.info.backend_pid
            other = store.engine.raw_connection()
            other.cursor().execute("SELECT pg_terminate_backend(%s)", [pid])
            other.close()

    return before


def test_a_session_that_the_server_ends_at_any_statement_leaves_every_table_as_it_was(postgresql_store):
    store = postgresql_store
    open_book = book.opened(store)
    moments = Moments(received=book.RECEIVED)
    raw = every_kind(open_book)["repair_attempted"]
    entries = understand(store, [raw], actor=open_book.everyone, moments=moments)
    before, failed = copy_of(store), 0
    while True:
        listener = cut_before(store, failed + 1)
        event.listen(store.engine, "before_cursor_execute", listener)
        try:
            post(store, entries, actor=open_book.everyone, moments=moments)
            break
        except Away:
            failed += 1
        finally:
            event.remove(store.engine, "before_cursor_execute", listener)
        assert changed(before, copy_of(store)) == set(), failed
    assert (failed > 15, verify(store).problems) == (True, ())


@pytest.mark.parametrize("spare_pages", [0, 1, 2, 3, 5, 8, 13])
def test_a_full_disk_leaves_every_table_as_it_was(sqlite_store, spare_pages):
    store = sqlite_store
    open_book = book.opened(store)
    before = copy_of(store)
    leaks = [book.leak(open_book, location="behind the mill " * 60) for _ in range(100)]

    def only_so_many(dbapi, _entry, _proxy):
        pages = dbapi.execute("PRAGMA page_count").fetchone()[0]
        dbapi.execute(f"PRAGMA max_page_count = {pages + spare_pages}")

    event.listen(store.engine, "checkout", only_so_many)
    with pytest.raises(DBAPIError, match="full"):
        open_book.say(*leaks)
    event.remove(store.engine, "checkout", only_so_many)
    assert changed(before, copy_of(store)) == set()
    store.engine.dispose()
    assert [r.new for r in open_book.say(*leaks)] == [True] * 100
    with store.reading() as tx:
        assert tx.connection.execute(text("PRAGMA integrity_check")).scalar() == "ok"
