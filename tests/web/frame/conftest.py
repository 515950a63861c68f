"""What the tests of the frame ask for: a book, a page on it, and somebody who can sign in."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from flask.testing import FlaskClient

from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.once import once
from tests.makers.site import site
from tests.makers.trial import Trial, trial_on

NAME, PASSWORD = "M. Aldous", "a long night in the rain"


@once
def signing_in(store: Store) -> m.Book:
    """A book in which the crew leader can sign in."""
    opened = m.opened(store)
    make_sign_in(store, person=opened.crew.person, name=NAME, password=PASSWORD, at=datetime.now(UTC))
    return opened


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """Such a book on SQLite: no page of the frame asks a database anything that the doors below do not, and those are
    tried on both. What counts who fails is tried on both here too (`test_sign_in.py`)."""
    return signing_in(sqlite_store)


@pytest.fixture
def trial(book: m.Book) -> Trial:
    """The application on it with a page to try."""
    return trial_on(book)


@pytest.fixture
def leak(book: m.Book) -> str:
    """A leak that is in the book."""
    said = m.leak(book)
    book.say(said)
    return str(said["id"])


@pytest.fixture
def address(leak: str) -> str:
    """Of the form of a source of that leak: text, codes, measures, a whole number."""
    return f"/leaks/{leak}/source"


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    """A browser in which the crew is signed in."""
    return site(book).client(book.crew)


@pytest.fixture
def officer(book: m.Book) -> FlaskClient:
    """A browser of somebody who may post in every area."""
    return site(book).client(book.officer)
