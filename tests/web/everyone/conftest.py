"""A small invented book, and the site on it."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import site as made


@pytest.fixture
def book(store: Store) -> m.Book:
    """An open book, on either database."""
    return m.opened(store)


@pytest.fixture
def site(book: m.Book) -> made.Site:
    """The site on that book."""
    return made.site(book)
