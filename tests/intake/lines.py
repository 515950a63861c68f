"""What stands in the journal of a store and what is complained of, for tests of the way in."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import select

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.entries.standing import standing
from repairlog.intake import NotUnderstood
from repairlog.records import journal
from repairlog.records.post.chain import chain_of
from repairlog.records.store import Store
from repairlog.records.tables.beside import UNFINISHED, WAITS_FOR
from tests.makers import book as m
from tests.makers.book import Book


def sealed(store: Store, id: str) -> dict[str, Any]:
    """The sealed line of that entry."""
    with store.reading() as tx:
        return journal.known(tx, [read_id(id)])[read_id(id)].sealed


def is_there(store: Store, id: str) -> bool:
    """Whether that entry is in the journal."""
    with store.reading() as tx:
        return bool(journal.known(tx, [read_id(id)]))


def now(store: Store, id: str) -> Standing:
    """That entry as it stands, with all that puts it right."""
    with store.reading() as tx:
        chain = chain_of(tx, read_id(id))
    return next(entry for entry in standing(chain) if entry.id == read_id(id))


def size(store: Store) -> int:
    """How many lines the journal has."""
    with store.reading() as tx:
        return journal.head(tx).size


def kept(store: Store) -> dict[str, str]:
    """Why each call is kept as unfinished, by the id of its first entry."""
    with store.reading() as tx:
        rows = tx.connection.execute(select(UNFINISHED.c.id, UNFINISHED.c.because))
        return {str(row.id): row.because for row in rows}


def waits(store: Store) -> set[tuple[str, str]]:
    """What waits for what."""
    with store.reading() as tx:
        return {(str(row.unfinished_id), str(row.id)) for row in tx.connection.execute(select(WAITS_FOR))}


def complained(book: Book, *entries: dict[str, Any]) -> list[tuple[int, str, str]]:
    """What is complained of in a call; nothing of it stands in the journal then."""
    before = size(book.store)
    with pytest.raises(NotUnderstood) as problem:
        book.say(*entries)
    assert size(book.store) == before
    return [(each.entry, each.field, each.code) for each in problem.value.complaints]


def righted(book: Book, entry: dict[str, Any], *changes: tuple[str, str | None]) -> dict[str, Any]:
    """The sealed correction of an entry."""
    correction = m.corrected(entry["id"], *changes)
    book.say(correction)
    return sealed(book.store, correction["id"])
