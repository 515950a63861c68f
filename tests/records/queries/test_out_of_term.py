"""Work by people of a company on a day outside its terms: at each edge, and as far as the scope shows it."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from repairlog.access import EVERYTHING, Part, Scope
from repairlog.records.queries.out_of_term import TermEdge, entries_out_of_term, out_of_term
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import companies

DALE = companies.company(from_on="2026-02-02", until_on="2026-03-03") | companies.also("Dale Pipes")
AMES = m.person("K. Ames", company="dale  PIPES")


@pytest.fixture
def book(store: Store) -> m.Book:
    book = m.opened(store)
    book.say(DALE, AMES)
    return book


def work(book: m.Book, on: str, **fields: Any) -> dict[str, Any]:
    """A visit by K. Ames on that day, to a leak of its own."""
    leak = m.leak(book, happened="2026-02-01")
    visit = m.visit(leak["id"]) | {"happened": on, "did": [{"key": "d1", "person": AMES["id"]}]} | fields
    book.say(leak, visit)
    return visit


def days(book: m.Book, scope: Scope = EVERYTHING, **asked: Any) -> list[str]:
    with book.store.reading() as tx:
        found = out_of_term(scope, tx, **{"company": None, "after": None, "most": 50} | asked)
        assert entries_out_of_term(scope, tx, company=asked.get("company")) == len(found) or asked
    return [row.on for row in found]


@pytest.mark.parametrize(
    ("on", "told"),
    [
        ("2026-02-01", True),
        ("2026-02-02", False),
        ("2026-02-03", False),
        ("2026-03-02", False),
        ("2026-03-03", False),
        ("2026-03-04", True),
    ],
)
def test_work_is_told_on_the_day_before_a_term_and_on_the_day_after_it(book: m.Book, on: str, told: bool) -> None:
    work(book, on)
    assert days(book) == ([on] if told else [])


def test_a_first_day_that_nobody_told_accuses_nobody(book: m.Book) -> None:
    book.say(
        companies.company("Weir Lab", from_on="", until_on="2026-03-03"), lab := m.person("L. Orr", company="Weir Lab")
    )
    for on in ("2025-01-01", "2026-03-03", "2026-03-04"):
        work(book, on, did=[{"key": "d1", "person": lab["id"]}])
    assert days(book) == ["2026-03-04"]


def test_a_day_that_is_known_as_on_or_before_accuses_nobody(book: m.Book) -> None:
    work(book, "2026-03-04", happened_known="on_or_before")
    assert days(book) == []


def test_a_further_term_an_end_and_a_void_count_at_once(book: m.Book) -> None:
    work(book, "2026-03-04")
    assert days(book) == ["2026-03-04"]
    back = companies.back(DALE["id"], from_on="2026-03-04")
    book.say(back)
    assert days(book) == []
    book.say(companies.left(DALE["id"], happened="2026-03-05", until_on="2026-03-03"))
    assert days(book) == ["2026-03-04"]


def test_who_did_it_is_told_with_the_company_and_in_pages(book: m.Book) -> None:
    first, second = work(book, "2026-03-04"), work(book, "2026-03-05")
    with book.store.reading() as tx:
        newest, oldest = out_of_term(EVERYTHING, tx, company=m.read_id(DALE["id"]), after=None, most=5)
    assert (oldest.entry, oldest.kind, oldest.name, oldest.called) == (
        m.read_id(first["id"]),
        "visit",
        "K. Ames",
        "Dale Pipe Co",
    )
    edge = TermEdge(on=date.fromisoformat(newest.on), entry=newest.entry, person=newest.person)
    assert (newest.entry, days(book, after=edge)) == (m.read_id(second["id"]), ["2026-03-04"])
    assert days(book, company=m.read_id(book.area)) == []


@pytest.mark.parametrize("cut_over_on", ["2026-03-03", "2026-03-04", "2026-03-05"])
def test_work_before_an_area_s_cut_over_accuses_nobody(book: m.Book, cut_over_on: str) -> None:
    work(book, "2026-03-04")
    book.say(m.cut_over(book.area, cut_over_on=cut_over_on))
    assert days(book) == (["2026-03-04"] if cut_over_on <= "2026-03-04" else [])


def test_what_is_void_what_nobody_of_it_did_and_a_company_put_on_in_error_are_not_told(book: m.Book) -> None:
    gone, _others = work(book, "2026-03-04"), work(book, "2026-03-04", did=[])
    book.say(m.void(gone["id"]))
    assert days(book) == []
    work(book, "2026-03-05")
    assert days(book) == ["2026-03-05"]
    book.say(m.void(DALE["id"]))
    assert days(book) == []


def test_it_is_told_of_leaks_in_scope_alone(book: m.Book) -> None:
    work(book, "2026-03-04")
    here, there = (Scope(areas=frozenset([m.read_id(area)])) for area in (book.area, book.other_area))
    nobody_s = Scope(parts=frozenset([Part(area=None, company="Weir Works")]))
    assert (days(book, here), days(book, there), days(book, nobody_s)) == (["2026-03-04"], [], [])
