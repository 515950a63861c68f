"""Attempts: numbered as they happened, decided by the last test, accepted or returned by the last word.

Common practice, no source: the last test decides, and only a lasting repair that tested tight holds.
"""

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.entry import order_of_happening
from repairlog.trade.attempts import Attempt, attempts
from tests.makers import book as m
from tests.makers.told import story

LEAK, SOURCE = m.new_id(), m.new_id()
FIRST = m.attempt(LEAK, source=SOURCE, happened="2026-03-05 10:00")


def done(*said: dict[str, Any]) -> list[Attempt]:
    """The attempts in a story of these entries, told as they happened."""
    return attempts(sorted(story(*said), key=order_of_happening))


def test_an_attempt_without_test_or_review_is_in_the_crew_s_word_and_waits() -> None:
    assert done(FIRST) == [
        Attempt(
            id=UUID(FIRST["id"]),
            source=UUID(SOURCE),
            number=1,
            lasting="permanent",
            on="2026-03-05",
            outcome="tight",
            decided_by=None,
            review="waiting",
        )
    ]


def test_attempts_are_numbered_as_they_happened_not_as_they_came_in() -> None:
    late = m.attempt(LEAK, happened="2026-03-04")
    second = m.attempt(LEAK, happened="2026-03-05 10:01")
    assert [(each.id, each.number) for each in done(second, FIRST, late)] == [
        (UUID(late["id"]), 1),
        (UUID(FIRST["id"]), 2),
        (UUID(second["id"]), 3),
    ]


@pytest.mark.parametrize(
    ("results", "outcome"),
    [
        ([("10:20", "not_tight")], "not_tight"),
        ([("10:20", "not_tight"), ("10:40", "tight")], "tight"),
        ([("10:40", "tight"), ("10:20", "not_tight")], "tight"),
        ([("10:20", "tight"), ("10:40", "cannot_say")], "cannot_say"),
        ([("10:20", "tight"), ("10:20", "not_tight")], "not_tight"),
    ],
    ids=["one", "a later one", "the later came in first", "a later doubt", "at one moment the later in the journal"],
)
def test_the_last_test_as_it_happened_decides(results: list[tuple[str, str]], outcome: str) -> None:
    tests = [m.test_of(LEAK, FIRST["id"], happened=f"2026-03-05 {at}", result=result) for at, result in results]
    assert [each.outcome for each in done(FIRST, *tests)] == [outcome]


def test_the_test_that_decides_is_named() -> None:
    test = m.test_of(LEAK, FIRST["id"])
    assert done(FIRST, test)[0].decided_by == UUID(test["id"])


def test_a_test_of_which_only_the_day_is_known_decides_over_the_morning_s() -> None:
    morning = m.test_of(LEAK, FIRST["id"], happened="2026-03-05 10:20", result="not_tight")
    some_time = m.test_of(LEAK, FIRST["id"], happened="2026-03-05")
    assert done(FIRST, some_time, morning)[0].decided_by == UUID(some_time["id"])


def test_a_test_counts_though_the_hour_of_its_attempt_is_not_known() -> None:
    attempt = m.attempt(LEAK, happened="2026-03-05")
    test = m.test_of(LEAK, attempt["id"], happened="2026-03-05 10:20", result="not_tight")
    assert done(attempt, test)[0].outcome == "not_tight"


def test_a_test_decides_over_its_own_attempt_alone() -> None:
    other = m.attempt(LEAK, happened="2026-03-05 11:00")
    test = m.test_of(LEAK, other["id"], happened="2026-03-05 11:20", result="not_tight")
    assert [each.outcome for each in done(FIRST, other, test)] == ["tight", "not_tight"]


@pytest.mark.parametrize(
    ("words", "review"),
    [
        ([("11:00", "accepted")], "accepted"),
        ([("11:00", "returned")], "returned"),
        ([("11:00", "accepted"), ("12:00", "returned")], "returned"),
        ([("12:00", "accepted"), ("11:00", "returned")], "accepted"),
    ],
)
def test_the_supervisor_s_last_word_stands(words: list[tuple[str, str]], review: str) -> None:
    reviews = [m.review(LEAK, FIRST["id"], happened=f"2026-03-05 {at}", outcome=word) for at, word in words]
    assert [each.review for each in done(FIRST, *reviews)] == [review]


@pytest.mark.parametrize(
    ("lasting", "outcome", "holds"),
    [
        ("permanent", "tight", True),
        ("permanent", "not_tight", False),
        ("permanent", "not_tested", False),
        ("temporary", "tight", False),
    ],
)
def test_only_a_permanent_tight_attempt_holds(lasting: str, outcome: str, holds: bool) -> None:
    assert done(m.attempt(LEAK, lasting=lasting, outcome=outcome))[0].holds is holds


def test_an_attempt_on_no_source_says_so() -> None:
    assert done(m.attempt(LEAK))[0].source is None
