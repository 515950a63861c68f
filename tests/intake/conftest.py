"""An open invented book on an empty database, once on SQLite and once on PostgreSQL."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.book import Book


@pytest.fixture
def sqlite_book(sqlite_store: Store) -> Book:
    """The same on SQLite alone."""
    return m.opened(sqlite_store)


@pytest.fixture
def book(store: Store) -> Book:
    """The book of an invented operator, as `tests.makers.book` opens it."""
    return m.opened(store)
