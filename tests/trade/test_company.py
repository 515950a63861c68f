"""A company as it stands: its names, and the terms for which it works for the operator. Decided by us, no source."""

from __future__ import annotations

from typing import Any

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.company import Company, Term, company, plain_name
from repairlog.words import companies as words
from tests.makers import companies as m
from tests.makers.book import new_id, read_id
from tests.makers.told import story

ADDED = m.company(from_on="2026-02-02", until_on="2026-03-31")
AGAIN = m.back(ADDED["id"], from_on="2026-05-01")


def dale(*entries: Any, added: Any = ADDED) -> Company:
    found = company(standing(story(added, *entries)))
    assert found is not None
    return found


def days(of: Company) -> list[tuple[str, str]]:
    return [(each.from_on, each.until_on) for each in of.terms]


def test_a_company_is_told_by_what_was_said_of_it() -> None:
    added = ADDED | m.also("Dale Pipe Company", "dale  PIPE co", "Dale Pipe Company")
    assert dale(added=added) == Company(
        id=read_id(ADDED["id"]),
        name="Dale Pipe Co",
        what="contractor",
        void=False,
        also_named=("Dale Pipe Company",),
        terms=(Term(entry=read_id(ADDED["id"]), from_on="2026-02-02", until_on="2026-03-31"),),
    )


@pytest.mark.parametrize(
    ("on", "works"),
    [
        ("2026-02-01", False),
        ("2026-02-02", True),
        ("2026-02-03", True),
        ("2026-03-30", True),
        ("2026-03-31", True),
        ("2026-04-01", False),
        ("2026-04-30", False),
        ("2026-05-01", True),
        ("2999-12-31", True),
    ],
)
def test_it_works_from_the_first_day_of_a_term_to_its_last_and_in_the_next(on: str, works: bool) -> None:
    assert dale(AGAIN).works(on=on) == works


def test_a_term_whose_first_day_nobody_told_had_begun_by_any_day_and_ends_with_its_last() -> None:
    found = dale(added=m.company(from_on="", until_on="2026-03-03"))
    assert days(found) == [("", "2026-03-03")]
    assert [found.works(on=on) for on in ("1950-01-01", "2026-03-03", "2026-03-04")] == [True, True, False]
    assert words.standing_told(found.terms, on="2025-01-01") == "works for us until 3 Mar 2026"
    assert words.standing_told(found.terms, on="2026-03-04") == "ended on 3 Mar 2026"


@pytest.mark.parametrize(
    ("until_on", "terms"),
    [
        ("2026-02-01", []),
        ("2026-02-02", [("2026-02-02", "2026-02-02")]),
        ("2026-03-30", [("2026-02-02", "2026-03-30")]),
        ("2026-03-31", [("2026-02-02", "2026-03-31")]),
        ("2026-04-01", [("2026-02-02", "2026-03-31")]),
    ],
)
def test_an_end_cuts_what_goes_on_after_it_and_makes_nothing_longer(
    until_on: str, terms: list[tuple[str, str]]
) -> None:
    assert days(dale(m.left(ADDED["id"], until_on=until_on))) == terms


def test_a_term_told_after_an_end_stands_and_one_told_before_it_does_not_begin() -> None:
    left = m.left(ADDED["id"], happened="2026-03-03")
    later = AGAIN | {"happened": "2026-03-04"}
    earlier = AGAIN | {"happened": "2026-03-02"}
    assert days(dale(left, later)) == [("2026-02-02", "2026-03-03"), ("2026-05-01", "")]
    assert days(dale(earlier, left)) == [("2026-02-02", "2026-03-03")]
    assert days(dale(left, earlier)) == [("2026-02-02", "2026-03-03")]


def test_a_term_whose_days_are_turned_round_is_none() -> None:
    assert days(dale(m.back(ADDED["id"], from_on="2026-06-02", until_on="2026-06-01"))) == days(dale())


def test_put_on_the_books_in_error_it_works_on_no_day() -> None:
    wrong = {"kind": "void", "id": new_id(), "entry": ADDED["id"], "reason": "another company"}
    found = dale(AGAIN, wrong)
    assert (found.void, found.terms, found.works(on="2026-02-02")) == (True, (), False)


def test_entries_that_put_no_company_on_the_books_tell_of_none() -> None:
    assert company(story(AGAIN)) is None


@pytest.mark.parametrize("name", ["Dale Pipe Co", " dale  pipe co ", "DALE PIPE\tCO"])
def test_names_are_compared_without_capitals_and_spaces(name: str) -> None:
    assert plain_name(name) == "dale pipe co"


@pytest.mark.parametrize(
    ("on", "told"),
    [
        ("2026-02-01", "not yet, from 2 Feb 2026 on"),
        ("2026-02-02", "works for us until 31 Mar 2026"),
        ("2026-03-31", "works for us until 31 Mar 2026"),
        ("2026-04-01", "not yet, from 1 May 2026 on"),
        ("2026-05-01", "works for us"),
    ],
)
def test_it_is_told_how_it_stands_on_a_day(on: str, told: str) -> None:
    assert words.standing_told(dale(AGAIN).terms, on=on) == told


def test_it_is_told_that_it_ended_and_that_there_was_no_day() -> None:
    assert words.standing_told(dale().terms, on="2026-04-01") == "ended on 31 Mar 2026"
    assert words.standing_told((), on="2026-04-01") == "no day of work"
