"""What the tests of the rooms ask for: a book, and a leak that is in it."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book as m


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    return m.opened(sqlite_store)


@pytest.fixture
def leak(book: m.Book) -> str:
    opened = m.leak(book)
    book.say(opened)
    return str(opened["id"])
