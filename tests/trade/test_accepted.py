"""What was accepted already, so that from then on an officer puts it right.

Common practice, no source: whoever oversees a crew looks over its repairs before they count as done.
"""

from typing import Any

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.accepted import acceptance
from tests.makers import book as m
from tests.makers.told import story

LEAK = m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
SOURCE, OTHER = m.source(LEAK), m.source(LEAK, happened="2026-03-03 09:30")
FIRST = m.attempt(LEAK, source=SOURCE["id"])
SECOND = m.attempt(LEAK, source=OTHER["id"], happened="2026-03-05 11:00")
TEST = m.test_of(LEAK, FIRST["id"])
ACCEPTED = m.review(LEAK, FIRST["id"])
BOTH = m.review(LEAK, SECOND["id"], happened="2026-03-05 11:30")
LATER = {"happened": "2026-03-05 12:00"}


def accepted(*said: dict[str, Any]) -> list[str]:
    """Of a leak that two repairs were tried on, the ids of the entries that are accepted, in the order of telling."""
    told = standing(story(OPENED, SOURCE, OTHER, FIRST, SECOND, TEST, *said))
    is_accepted = acceptance(told)
    return [str(each.id) for each in told if is_accepted(each)]


def test_with_a_repair_its_tests_and_the_review_of_it_are_accepted_and_nothing_else_of_the_leak() -> None:
    assert accepted() == []
    assert accepted(ACCEPTED) == [FIRST["id"], TEST["id"], ACCEPTED["id"]]


@pytest.mark.parametrize("after", [m.void(ACCEPTED["id"]), m.review(LEAK, FIRST["id"], outcome="returned") | LATER])
def test_a_review_that_is_void_or_that_another_one_follows_accepts_nothing(after: dict[str, Any]) -> None:
    assert accepted(ACCEPTED, after) == []


def test_of_a_leak_that_accepted_repairs_ended_everything_is_accepted() -> None:
    note, ending = m.note(LEAK), m.ending(LEAK, [FIRST["id"], SECOND["id"]], **LATER)
    said = (ACCEPTED, BOTH, note, ending)
    assert accepted(*said) == [e["id"] for e in (OPENED, SOURCE, OTHER, FIRST, SECOND, TEST, *said)]


@pytest.mark.parametrize(
    "ending", [m.ending(LEAK, [FIRST["id"]], **LATER), m.ending(LEAK, [FIRST["id"], SECOND["id"]], **LATER)]
)
def test_an_ending_that_leaves_a_source_out_or_names_a_repair_not_accepted_accepts_no_more(
    ending: dict[str, Any],
) -> None:
    assert accepted(ACCEPTED, ending) == [FIRST["id"], TEST["id"], ACCEPTED["id"]]


def test_an_ending_by_no_repair_accepts_nothing() -> None:
    assert accepted(m.ending(LEAK, how="no_reading", **LATER)) == []
