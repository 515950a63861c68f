"""Whichever statement of a post fails, COMMIT included, nothing of it is there afterwards, and it can be posted again.

The same is asked for N = 1, 2, 3 ... until no N-th statement is left.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass

import pytest
from sqlalchemy import event

from repairlog.entries.entry import Entry, Moments
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.intake.call import understand
from repairlog.records.beside.unfinished import Unfinished, keep
from repairlog.records.post import Receipt, post
from repairlog.records.store import Store
from repairlog.records.tables.beside import UNFINISHED
from repairlog.records.tables.journal import HEAD, JOURNAL
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import changed, copy_of, count
from tests.makers.every_kind import every_kind

MOMENTS = Moments(received=book.RECEIVED)
ON_OTHERS = ("visit", "repair_attempted", "leak_ended", "call_outcome", *RIGHTING)
"""Kinds that write rows of several tables or of stories of others. On PostgreSQL, where each try takes thrice as long,
the rest of the kinds fail at each of their statements in the call of every kind at once."""


class PowerCut(Exception):
    """Stands for whatever may end a statement."""


@dataclass(slots=True)
class Counted:
    """How many statements came, and the last of them."""

    count: int = 0
    last: str = ""


@contextmanager
def failing_at(store: Store, number: int) -> Iterator[Counted]:
    """Raise PowerCut instead of the statement of that number, from 1; 0 only counts. COMMIT is a statement."""
    seen = Counted()

    def statement(text: str) -> None:
        seen.count, seen.last = seen.count + 1, text
        if seen.count == number:
            raise PowerCut(text)

    def before(_connection, _cursor, text, _parameters, _context, _executemany):
        statement(text)

    def commit(_connection):
        statement("COMMIT")

    event.listen(store.engine, "before_cursor_execute", before)
    event.listen(store.engine, "commit", commit)
    try:
        yield seen
    finally:
        event.remove(store.engine, "before_cursor_execute", before)
        event.remove(store.engine, "commit", commit)


def understood(open_book: book.Book, raw: list[dict]) -> list[Entry]:
    return understand(open_book.store, raw, actor=open_book.everyone, moments=MOMENTS)


def posted(open_book: book.Book, entries: list[Entry]) -> list[Receipt]:
    return post(open_book.store, entries, actor=open_book.everyone, moments=MOMENTS)


def statements_of(open_book: book.Book, entries: list[Entry]) -> list[str]:
    """Fail each statement in turn; every table is as it was each time. The statements, once the post went through."""
    store, failed, before, committed = open_book.store, [], copy_of(open_book.store), bytes_of(open_book.store)
    while not (receipts := _posted_but_for(open_book, entries, failed)):
        same = committed is not None and bytes_of(store) == committed  # quicker than a look at every row
        assert same or changed(before, copy_of(store)) == set(), failed[-1]
    assert [receipt.new for receipt in receipts] == [True] * len(entries)
    assert changed(before, copy_of(store)) > {JOURNAL.name, HEAD.name, "entry", "about"}
    assert verify(store).problems == ()
    return failed


def bytes_of(store: Store) -> bytes | None:
    """All that is committed, as SQLite has it; None on PostgreSQL."""
    if store.dialect != "sqlite":
        return None
    with closing(sqlite3.connect(store.engine.url.database)) as other:
        return other.serialize()


def _posted_but_for(open_book: book.Book, entries: list[Entry], failed: list[str]) -> list[Receipt]:
    """Post with the statement after those in `failed` failing, and add it to them; the receipts if there is none."""
    with failing_at(open_book.store, len(failed) + 1):
        try:
            return posted(open_book, entries)
        except PowerCut as cut:
            failed.append(str(cut))
            return []


@pytest.mark.parametrize("kind", [name for name in KINDS if name != "operator_opened"])
def test_an_entry_of_any_kind_is_there_whole_or_not_at_all_whichever_statement_fails(sqlite_store, kind):
    demand_whole_or_not_at_all(sqlite_store, kind)


@pytest.mark.parametrize(
    "kind", [*(name for name, kind in KINDS.items() if kind.opens not in ("", "operator")), *ON_OTHERS]
)
def test_on_postgresql_one_that_opens_or_puts_right_or_moves_is_too(postgresql_store, kind):
    demand_whole_or_not_at_all(postgresql_store, kind)


def demand_whole_or_not_at_all(store, kind):
    open_book = book.opened(store)
    entries = understood(open_book, [every_kind(open_book)[kind]])
    _keep_unfinished(open_book, entries)
    statements = statements_of(open_book, entries)
    assert (statements[-1], count(store, UNFINISHED)) == ("COMMIT", 0)
    assert len(statements) > 10


def _keep_unfinished(open_book: book.Book, entries: list[Entry]) -> None:
    """What was typed is kept until the commit that records it."""
    kept = {"person": open_book.crew.person, "because": "left", "form": "entries", "kept_at": book.RECEIVED}
    keep(open_book.store, Unfinished(id=entries[0].id, raw=[], **kept))


def test_the_opening_of_the_book_is_there_whole_or_not_at_all(store):
    opening = {"kind": "operator_opened", "id": book.new_id(), "name": "Saltmarsh Gas", "zone": "America/New_York"}
    person = book.Actor(person=book.read_id(book.new_id()), sure="system")
    added = {"kind": "person_added", "id": str(person.person), "name": "R. Tolland", "happened": "2025-01-02"}
    shut = book.Book(store, "", "", "", person, person, person, person, "")
    statements = statements_of(shut, understood(shut, [opening | {"happened": "2025-01-02"}, added]))
    assert statements[-1] == "COMMIT"


def test_a_call_of_every_kind_at_once_is_there_whole_or_not_at_all(store):
    open_book = book.opened(store)
    statements = statements_of(open_book, understood(open_book, list(every_kind(open_book).values())))
    assert statements[-1] == "COMMIT"


def test_an_entry_that_is_there_already_is_told_again_with_no_more_than_reading(store):
    open_book = book.opened(store)
    entries = understood(open_book, [book.leak(open_book)])
    posted(open_book, entries)
    with failing_at(store, 0) as seen:
        posted(open_book, entries)
    assert (seen.count < 8, seen.last) == (True, "COMMIT")
