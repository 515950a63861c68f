"""The schema as it is served: open to all, and its examples are posted as they stand by roles that may."""

from __future__ import annotations

import json

import pytest

from repairlog.access.posts import POSTS
from repairlog.entries.examples import AREA, Raw
from repairlog.entries.kinds import KINDS
from repairlog.intake.schema import schema
from repairlog.records.store import Store
from repairlog.records.verify import verify
from tests.makers import book as m
from tests.makers.examples import POSTED, example_book, named
from tests.makers.program import program
from tests.makers.site import Site, site


@pytest.fixture
def open_site(sqlite_store: Store) -> Site:
    """The application on a book that holds what the examples speak about."""
    return site(example_book(sqlite_store))


def test_the_schema_is_told_to_whoever_asks(open_site: Site) -> None:
    answer = open_site.app.test_client().get("/api/entries/schema")
    assert (answer.status_code, answer.mimetype, answer.get_json()) == (200, "application/schema+json", schema())


def test_the_schema_of_one_book_is_that_of_every_other(store: Store) -> None:
    """It tells nothing of what is in the book, which it is told for to all."""
    empty = site(m.opened(store)).app.test_client().get("/api/entries/schema")
    assert empty.get_json() == schema()


def test_the_schema_is_asked_for_and_nothing_is_posted_there(open_site: Site) -> None:
    answer = open_site.app.test_client().post("/api/entries/schema", json={})
    assert (answer.status_code, answer.get_json()["code"]) == (405, "method_not_allowed")
    assert set(answer.headers["Allow"].split(", ")) == {"GET", "HEAD", "OPTIONS"}


@pytest.mark.parametrize("raw", POSTED, ids=named)
def test_an_example_is_posted_as_it_stands_and_twice_by_a_role_that_may_post_it(open_site: Site, raw: Raw) -> None:
    told = open_site.app.test_client().get("/api/entries/schema").get_json()["$defs"][raw["kind"]]["examples"]
    (example,) = (each for each in told if each["id"] == raw["id"])
    token = program(open_site, _person(open_site.book, "administrator" if _is_for_administrators(raw) else "officer"))
    first, again = token.post(json.dumps(example)), token.post(json.dumps(example))
    assert (first.status_code, again.status_code, again.get_json()) == (201, 200, first.get_json())
    assert verify(open_site.book.store).problems == ()


def _is_for_administrators(raw: Raw) -> bool:
    return "officer" not in POSTS[raw["kind"]]


def _person(book: m.Book, role: str) -> m.Actor:
    return {"administrator": book.everyone, "officer": book.officer}[role]


def test_every_kind_but_the_book_s_opening_is_among_those_posted() -> None:
    assert {raw["kind"] for raw in POSTED} == set(KINDS) - {"operator_opened"}
    assert AREA in {raw.get("area") for raw in POSTED}


def test_the_opening_is_told_that_the_book_has_one_already(open_site: Site) -> None:
    (opening,) = schema()["$defs"]["operator_opened"]["examples"]
    answer = program(open_site, open_site.book.everyone).post(opening)
    codes = [each["code"] for each in answer.get_json()["complaints"]]
    assert (answer.status_code, codes) == (422, ["operator_opened_already"])
