"""A leak's later life as it stands: opened again, a lower grade that does not count, work in hand, what it waits on.

Common practice, no source.
"""

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.leak import Leak, leak
from repairlog.trade.rests import Rests
from repairlog.trade.work import Scheduled
from tests.makers import book as m
from tests.makers.told import story

LEAK = m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}


def now(*said: dict[str, Any]) -> Leak:
    """The leak as it stands after these entries."""
    found = leak(standing(story(OPENED, *said)), rests=Rests())
    assert found is not None
    return found


def has(as_is: Leak) -> list[UUID]:
    """The entries by which work was given that is still to be done."""
    return [each.id for each in as_is.in_hand]


def grades(as_is: Leak) -> tuple[str, str]:
    """The grade as found, and that of now."""
    found = [each.code if each else "" for each in (as_is.grade_found, as_is.grade_now)]
    return found[0], found[1]


def gone(way: str = "no_reading", on: str = "2026-03-05") -> dict[str, Any]:
    return m.ending(LEAK, how=way, happened=on)


def test_a_leak_opened_again_is_open_until_another_ending() -> None:
    first, again, last = gone(), m.reopened(LEAK), gone(on="2026-03-09")
    assert (now(first).status, now(first, again).status, now(first, again, last).status) == ("ended", "open", "ended")
    ended = now(first, again, last)
    assert ended.ending is not None
    assert (ended.ending.entry.id, ended.ending.on, ended.reopened_on) == (UUID(last["id"]), "2026-03-09", "2026-03-06")


def test_the_order_of_arrival_says_nothing_about_which_ending_counts() -> None:
    first, again, last = gone(), m.reopened(LEAK), gone(on="2026-03-09")
    assert now(last, again, first).status == "ended"
    assert now(again, first).status == "open"


def test_an_opening_again_that_is_void_leaves_the_leak_ended() -> None:
    again = m.reopened(LEAK)
    assert now(gone(), again, m.void(again["id"])).status == "ended"


def test_an_ending_that_names_only_a_temporary_repair_does_not_hold() -> None:
    clamp = m.attempt(LEAK, lasting="temporary")
    assert now(clamp, m.ending(LEAK, [clamp["id"]])).status == "open"


@pytest.mark.parametrize(("outcome", "grade"), [("approved", "3"), ("not_approved", "1")])
def test_a_lower_grade_counts_unless_it_is_not_approved(outcome: str, grade: str) -> None:
    first, lower = m.grade(LEAK, grade="1"), m.grade(LEAK, grade="3", happened="2026-03-04")
    for said in ([first, lower], [first, lower, m.downgrade(LEAK, lower["id"])]):
        assert grades(now(*said)) == ("1", "3")
    assert grades(now(first, lower, m.downgrade(LEAK, lower["id"], outcome=outcome))) == ("1", grade)


def test_work_is_in_hand_until_it_is_done_settled_or_given_to_another() -> None:
    given = m.given(LEAK)
    assert has(now(given)) == [UUID(given["id"])]
    assert has(now(given, m.attempt(LEAK, outcome="not_tight"))) == [UUID(given["id"])]
    assert has(now(given, m.attempt(LEAK))) == []
    assert has(now(given, m.attempt(LEAK, happened="2026-03-03 09:29"))) == [UUID(given["id"])]
    assert has(now(given, m.settled(LEAK, given["id"]))) == []
    other = m.given(LEAK, happened="2026-03-04", named="Truck 7")
    assert has(now(given, other)) == [UUID(other["id"])]


@pytest.mark.parametrize(
    ("work", "does", "left"),
    [
        ("permanent_repair", m.attempt(LEAK, lasting="temporary"), 1),
        ("permanent_repair", m.attempt(LEAK), 0),
        ("re_evaluation", m.visit(LEAK, happened="2026-03-04", purpose="follow_up_inspection"), 1),
        ("re_evaluation", m.visit(LEAK, happened="2026-03-04", purpose="re_evaluation"), 0),
        ("re_evaluation", m.visit(LEAK, happened="2026-03-04", purpose="re_evaluation", outcome="no_access"), 1),
        ("first_investigation", m.visit(LEAK, happened="2026-03-04", purpose="re_evaluation"), 0),
        ("repair", gone(), 0),
        ("follow_up_inspection", gone(), 1),
        ("restoration", gone(), 1),
    ],
)
def test_what_does_a_sort_of_work(work: str, does: dict[str, Any], left: int) -> None:
    assert len(has(now(m.given(LEAK, work=work), does))) == left


def test_two_sorts_of_work_are_in_two_people_s_hands() -> None:
    assert len(has(now(m.given(LEAK), m.given(LEAK, work="re_evaluation")))) == 2


def test_work_waits_until_it_goes_on_or_is_tried() -> None:
    waiting = m.waiting(LEAK)
    said = now(waiting).waits
    assert said is not None
    assert said.id == UUID(waiting["id"])
    assert now(waiting, m.goes_on(LEAK)).waits is None
    assert now(waiting, m.attempt(LEAK)).waits is None
    assert now(waiting, gone()).waits is None
    assert now(waiting, m.goes_on(LEAK, happened="2026-03-03 10:59")).waits is not None


def test_scheduled_for_repair_is_the_last_word_on_it() -> None:
    yes, no = m.scheduled(LEAK), m.scheduled(LEAK, scheduled="no", happened="2026-03-05", for_on=None)
    assert now(yes).scheduled == Scheduled(since="2026-03-04", for_on="2026-03-11")
    assert (now(yes, no).scheduled, now(yes, gone()).scheduled, now().scheduled) == (None, None, None)
