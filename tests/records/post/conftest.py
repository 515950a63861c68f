"""An open invented book on an empty database, once on SQLite and once on PostgreSQL."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book


@pytest.fixture
def open_book(store: Store) -> book.Book:
    """The book of an invented operator, as `tests.makers.book` opens it."""
    return book.opened(store)


@pytest.fixture
def sqlite_open_book(sqlite_store: Store) -> book.Book:
    """The same on SQLite alone, where the database makes no difference."""
    return book.opened(sqlite_store)
