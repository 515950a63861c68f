"""Where a person begins, and what a probe is told: both without a sign-in."""

from __future__ import annotations

import pytest

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.cells import do
from tests.web.frame.conftest import signing_in


@pytest.fixture
def book(store: Store) -> m.Book:
    """On either database."""
    return signing_in(store)


def test_the_bare_address_goes_to_the_first_page_and_who_is_not_signed_in_to_signing_in(trial, book):
    first = trial.site.client(book.crew).get("/")
    assert (first.status_code, first.location) == (302, "/today")
    asked = trial.site.app.test_client().get(first.location)
    assert asked.location == "/sign-in?then=/today"


def test_a_probe_is_told_that_the_book_can_be_read_and_nothing_else(trial):
    answer = trial.site.app.test_client().get("/healthy")
    assert (answer.status_code, answer.mimetype, answer.text) == (200, "text/plain", "ok\n")
    assert "Set-Cookie" not in answer.headers


def test_a_probe_is_told_that_the_book_cannot_be_read(trial, book):
    do(book.store, "DROP TABLE alembic_version")
    answer = trial.site.app.test_client().get("/healthy")
    assert (answer.status_code, answer.text) == (503, "the book cannot be read\n")
