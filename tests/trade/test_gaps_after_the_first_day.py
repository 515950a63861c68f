"""Gaps of a leak's later life: order, two stories that differ, lower grades, what is named that is not the leak's.

Common practice, no source.
"""

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.lot import Lot
from repairlog.trade.rests import rests_of
from tests.makers import book as m
from tests.makers.told import told

LEAK, LOT, OTHER = m.new_id(), m.new_id(), m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
VOID_LOT = Lot(id=UUID(LOT), area=OPENED["area"], item="tape", lot_number="W-1", expires_on="", void=True)
JO, LU = ({"by": {"did": [{"key": "d1", "person": m.new_id()}]}} for _ in range(2))


def gaps(*said: dict[str, Any], also: dict[str, dict[str, Any]] | None = None) -> list[Gap]:
    """The gaps of a leak after these entries. `also`: by id, what else is sealed beside one."""
    story = [told(index, each, **(also or {}).get(each["id"], {})) for index, each in enumerate((OPENED, *said))]
    found = leak(standing(story), rests=rests_of([VOID_LOT]))
    assert found is not None
    return list(found.gaps)


def gap(code: str, of: dict[str, Any], row: str = "", **facts: str) -> Gap:
    """The gap of that code about that entry."""
    return Gap(code=code, entry=UUID(of["id"]), row=row, facts=facts)


@pytest.mark.parametrize(
    ("happened", "raised"),
    [("2026-03-05 10:01", True), ("2026-03-05 10:02", False), ("2026-03-05 10:03", False), ("2026-03-05", False)],
)
def test_a_test_before_its_repair_is_raised_by_moment_where_both_are_known(happened: str, raised: bool) -> None:
    attempt = m.attempt(LEAK)
    test = m.test_of(LEAK, attempt["id"], happened=happened)
    expected = gap("tested_before_repair", test, tested_on="2026-03-05", repaired_on="2026-03-05")
    assert gaps(attempt, test) == ([expected] if raised else [])


@pytest.mark.parametrize(
    ("pressures", "raised"),
    [
        ({}, False),
        ({"pressure_found": "310 kPa gauge"}, False),
        ({"pressure_found": "310 kPa gauge", "pressure_restored": "310 kPa gauge"}, False),
        ({"pressure_found": "310 kPa gauge", "pressure_installing": "0 kPa gauge"}, True),
        ({"pressure_installing": "0 kPa gauge", "pressure_restored": "310 kPa gauge"}, True),
    ],
)
def test_a_repair_that_changed_the_pressure_asks_for_a_test_after_it(pressures: dict[str, str], raised: bool) -> None:
    """Common practice, no source: a soap test at line pressure is the test where pressure never changed."""
    attempt = m.attempt(LEAK)
    also = {attempt["id"]: {"understood": pressures}}
    expected = gap("no_test_after_pressure_change", attempt)
    assert gaps(attempt, also=also) == ([expected] if raised else [])
    assert gaps(attempt, m.test_of(LEAK, attempt["id"]), also=also) == []
    early = m.test_of(LEAK, attempt["id"], happened="2026-03-04")
    codes = [each.code for each in gaps(attempt, early, also=also)]
    assert codes == ["tested_before_repair", *(["no_test_after_pressure_change"] if raised else [])]


def test_a_repair_after_the_end_asks_whether_to_reopen() -> None:
    end = m.ending(LEAK, how="no_reading", happened="2026-03-04 09:00")
    attempt = m.attempt(LEAK)
    assert gaps(end, attempt) == [gap("repair_after_the_end", attempt, ended_on="2026-03-04", done_on="2026-03-05")]
    assert gaps(end, attempt, m.reopened(LEAK, happened="2026-03-04 20:00")) == []
    assert gaps(end, m.attempt(LEAK, happened="2026-03-04 08:59")) == []


def test_a_follow_up_after_the_end_raises_nothing() -> None:
    end = m.ending(LEAK, how="no_reading", happened="2026-03-04 09:00")
    assert gaps(end, m.visit(LEAK, happened="2026-03-20", purpose="follow_up_inspection")) == []


def test_opening_again_what_was_open_is_raised() -> None:
    again = m.reopened(LEAK)
    assert gaps(again) == [gap("reopened_while_open", again)]
    end = m.ending(LEAK, how="no_reading", happened="2026-03-04")
    assert gaps(end, again) == []
    twice = m.reopened(LEAK, happened="2026-03-07")
    assert gaps(end, again, twice) == [gap("reopened_while_open", twice)]


def test_an_ending_after_each_opening_is_no_second_ending() -> None:
    ends = [m.ending(LEAK, how="no_reading", happened=on) for on in ("2026-03-04", "2026-03-07", "2026-03-08")]
    found = gaps(ends[0], m.reopened(LEAK), ends[1], ends[2])
    assert found == [gap("ended_twice", ends[2], first_on="2026-03-07", again_on="2026-03-08")]


def test_two_people_s_words_of_one_matter_at_one_moment_are_raised_where_they_differ() -> None:
    """Of the two by that whose name is greater, so that it hangs on no order of arrival."""
    one, two = m.grade(LEAK, grade="2"), m.grade(LEAK, grade="1")
    by_two = {one["id"]: JO, two["id"]: LU}
    expected = gap("two_stories_differ", two, this="1", other="2")
    for in_order in ((one, two), (two, one)):
        assert [each for each in gaps(*in_order, also=by_two) if each.code == "two_stories_differ"] == [expected]
    assert gaps(one, two, also={one["id"]: JO, two["id"]: JO}) == []  # the same person thought again
    assert gaps(one, m.grade(LEAK, grade="2"), also=by_two) == []
    later = m.grade(LEAK, grade="1", happened="2026-03-03 08:41")
    assert gaps(one, later, also={one["id"]: JO, later["id"]: LU}) == []


def test_two_readings_of_one_bar_hole_at_one_moment_differ() -> None:
    one = m.visit(LEAK)
    place = {"key": "p9", "kind": "bar_hole", "same_as": f"{one['id']}/p2"}
    two = m.visit(LEAK, places=[place], readings=[{"key": "r9", "place": "p9", "kind": "sustained", "value": "3 %gas"}])
    also = {
        one["id"]: JO | {"understood": {"readings.r2.value": "3 %gas methane"}},
        two["id"]: LU | {"understood": {"readings.r9.value": "2 %gas methane"}},
    }
    expected = gap("two_stories_differ", two, "readings.r9", this="2 %gas methane", other="3 %gas methane")
    assert gaps(one, two, also=also) == [expected]


def test_a_lower_grade_waits_for_a_supervisor() -> None:
    first, lower = m.grade(LEAK, grade="1"), m.grade(LEAK, grade="2", happened="2026-03-04")
    expected = gap("downgrade_not_reviewed", lower, before="1", grade="2")
    assert gaps(first, lower) == [expected]
    assert gaps(first, lower, also={lower["id"]: {"by": {"sure": "import"}}}) == []
    for outcome in ("approved", "not_approved"):
        assert gaps(first, lower, m.downgrade(LEAK, lower["id"], outcome=outcome)) == []
    assert gaps(lower, m.grade(LEAK, grade="1", happened="2026-03-05")) == []  # higher


def test_what_is_named_that_is_not_this_leak_s_is_raised() -> None:
    attempt = m.attempt(LEAK, source=m.new_id())
    assert gaps(attempt) == [gap("source_not_of_this_leak", attempt, "source")]
    visit = m.visit(LEAK, places=[], readings=[{"key": "r1", "place": "p9", "value": "0 %gas"}])
    assert gaps(visit) == [gap("reading_at_no_place", visit, "readings.r1")]
    assert gaps(m.visit(LEAK, places=[], readings=[{"key": "r1", "value": "0 %gas"}])) == []
    grade = m.grade(LEAK)
    for wrong in (m.downgrade(LEAK, m.new_id()), m.settled(LEAK, grade["id"])):
        assert gaps(grade, wrong) == [gap("entry_not_of_this_leak", wrong)]


def test_work_given_to_nobody_is_raised() -> None:
    given = m.given(LEAK, named=None)
    assert gaps(given) == [gap("work_given_to_nobody", given)]


def test_joining_says_to_which_other_number() -> None:
    nowhere, itself = (m.ending(LEAK, how="joined", joined_to=to) for to in (None, LEAK))
    assert gaps(nowhere) == [gap("joined_without_number", nowhere)]
    assert gaps(itself) == [gap("joined_to_itself", itself)]
    assert gaps(m.ending(LEAK, how="joined", joined_to=OTHER)) == []


def test_a_lot_whose_receipt_is_void_is_raised_where_it_was_used() -> None:
    attempt = m.attempt(LEAK, materials=[{"key": "m1", "lot": LOT}])
    assert gaps(attempt) == [gap("void_lot_used", attempt, "materials.m1", lot_number="W-1")]


def test_a_gap_that_is_set_aside_still_stands_and_says_so() -> None:
    again = m.reopened(LEAK)
    aside = m.set_aside(LEAK, again["id"], "reopened_while_open")
    [found] = gaps(again, aside)
    assert (found.code, found.set_aside) == ("reopened_while_open", UUID(aside["id"]))
    for other in (
        m.set_aside(LEAK, again["id"], "ended_twice"),
        m.set_aside(LEAK, m.new_id(), "reopened_while_open"),
        m.set_aside(LEAK, again["id"], "reopened_while_open", row="source"),
    ):
        assert gaps(again, other) == [gap("reopened_while_open", again)]
    assert gaps(again, aside, m.void(aside["id"])) == [gap("reopened_while_open", again)]
