"""Every gap, with what raises it and what settles it. Common practice, no source, but where a test names one."""

from dataclasses import replace
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.lot import Lot
from repairlog.trade.rests import Rests, rests_of
from tests.makers import book as m
from tests.makers.kept import figure as kept_figure
from tests.makers.told import PERSON, story, told
from tests.words.spoken import gap_codes

LEAK, LOT = m.new_id(), m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
TAPE = Lot(
    id=UUID(LOT), area=OPENED["area"], item="wrap tape", lot_number="W-0118", expires_on="2026-09-30", void=False
)


def gaps(*said: dict[str, Any], opened: dict[str, Any] = OPENED) -> list[Gap]:
    """The gaps of a leak after these entries."""
    found = leak(standing(story(opened, *said)), rests=rests_of([TAPE]))
    assert found is not None
    return list(found.gaps)


def gap(code: str, of: dict[str, Any], row: str = "", **facts: str) -> Gap:
    """The gap of that code about that entry."""
    return Gap(code=code, entry=UUID(of["id"]), row=row, facts=facts)


def test_a_story_in_order_raises_nothing() -> None:
    source = m.source(LEAK)
    attempt = m.attempt(LEAK, source=source["id"], materials=[{"key": "m1", "lot": LOT}])
    done = [m.test_of(LEAK, attempt["id"]), m.review(LEAK, attempt["id"]), m.ending(LEAK, [attempt["id"]])]
    assert gaps(m.visit(LEAK), m.grade(LEAK), source, attempt, *done) == []


@pytest.mark.parametrize(
    ("happened", "raised"),
    [("2026-03-03 07:51", True), ("2026-03-03 07:52", False), ("2026-03-03 07:53", False), ("2026-03-02", True)],
)
def test_a_repair_before_the_report_is_raised_by_moment_where_both_are_known(happened: str, raised: bool) -> None:
    attempt = m.attempt(LEAK, happened=happened)
    expected = gap("repaired_before_reported", attempt, reported_on="2026-03-03", done_on=happened[:10])
    assert gaps(attempt) == ([expected] if raised else [])


@pytest.mark.parametrize(
    ("happened", "raised"), [("2026-03-02", True), ("2026-03-03", False), ("2026-03-04", False)], ids=str
)
def test_a_repair_of_a_day_alone_is_before_the_report_on_an_earlier_day(happened: str, raised: bool) -> None:
    assert [each.code for each in gaps(m.attempt(LEAK, happened=happened))] == ["repaired_before_reported"] * raised


def test_a_repair_before_the_report_is_said_once_of_the_first() -> None:
    first, second = (m.attempt(LEAK, happened=on) for on in ("2026-03-01", "2026-03-02"))
    assert [each.entry for each in gaps(second, first)] == [UUID(first["id"])]


@pytest.mark.parametrize(
    ("how", "code"),
    [
        ("replaced", "repaired_before_reported"),
        ("adjusted", "repaired_before_reported"),
        ("no_reading", "ended_before_reported"),
        ("customers", "ended_before_reported"),
        ("retired", "ended_before_reported"),
    ],
)
def test_an_ending_before_the_report_is_raised_by_its_way(how: str, code: str) -> None:
    end = m.ending(LEAK, [], how=how, happened="2026-03-02")
    assert gaps(end) == [gap(code, end, reported_on="2026-03-03", done_on="2026-03-02")]


def test_a_day_that_a_list_does_not_give_raises_nothing_about_order() -> None:
    listed = OPENED | {"happened": "2026-03-03", "happened_known": "on_or_before"}
    assert gaps(m.attempt(LEAK, happened="2026-03-01"), opened=listed) == []
    assert gaps(m.attempt(LEAK, happened="2026-03-01", happened_known="on_or_before")) == []


def test_a_visit_or_a_grade_before_the_report_raises_nothing() -> None:
    assert gaps(m.visit(LEAK, happened="2026-03-01"), m.grade(LEAK, happened="2026-03-01")) == []


def test_an_ending_that_does_not_hold_says_all_that_it_lacks_once() -> None:
    clamp = m.attempt(LEAK, lasting="temporary", outcome="not_tight")
    other = m.attempt(LEAK, lasting="temporary", outcome="not_tight")
    source = m.source(LEAK)
    end = m.ending(LEAK, [clamp["id"], other["id"], m.new_id()])
    why = "attempt_not_there, attempt_not_tight, attempt_temporary, source_without_attempt"
    assert gaps(source, clamp, other, end) == [gap("ending_does_not_hold", end, why=why)]


def test_a_second_ending_is_raised_with_both_days() -> None:
    ends = [m.ending(LEAK, [], how="no_reading", happened=on) for on in ("2026-03-08", "2026-03-09")]
    assert gaps(*ends) == [gap("ended_twice", ends[1], first_on="2026-03-08", again_on="2026-03-09")]


@pytest.mark.parametrize("word", ["waiting", "returned", "accepted"])
def test_an_ending_by_a_repair_that_nobody_accepted_is_raised(word: str) -> None:
    attempt = m.attempt(LEAK)
    reviews = [m.review(LEAK, attempt["id"], outcome=word)] if word != "waiting" else []
    expected = [gap("repair_not_accepted", attempt, review=word)] if word != "accepted" else []
    assert gaps(attempt, m.ending(LEAK, [attempt["id"]]), *reviews) == expected


def test_an_ending_from_a_list_asks_for_no_acceptance() -> None:
    attempt = m.attempt(LEAK)
    end = told(2, m.ending(LEAK, [attempt["id"]]), by={"sure": "import"})
    found = leak([*story(OPENED, attempt), end], rests=Rests())
    assert found is not None
    assert found.gaps == ()


@pytest.mark.parametrize(
    ("happened", "raised"),
    [("2026-09-29", False), ("2026-09-30", False), ("2026-10-01", True)],
    ids=["the day before", "the last day", "the day after"],
)
def test_a_lot_used_after_its_last_day_is_raised(happened: str, raised: bool) -> None:
    attempt = m.attempt(LEAK, happened=happened, materials=[{"key": "m1", "lot": LOT}])
    facts = {"lot_number": "W-0118", "expires_on": "2026-09-30", "used_on": happened}
    assert gaps(attempt) == ([gap("expired_lot_used", attempt, "materials.m1", **facts)] if raised else [])


def test_a_lot_and_people_that_are_not_on_the_books_are_raised_row_by_row() -> None:
    attempt = m.attempt(
        LEAK,
        materials=[{"key": "m1", "named": "W-81?"}, {"key": "m2", "lot": LOT}],
        people=[{"key": "p1", "named": "a hand", "task": "install clamp"}, {"key": "p2", "person": PERSON}],
    )
    assert gaps(attempt) == [
        gap("lot_not_on_the_books", attempt, "materials.m1", named="W-81?"),
        gap("person_not_on_the_books", attempt, "people.p1", named="a hand"),
    ]


def test_who_did_it_is_raised_where_not_on_the_books() -> None:
    visit = m.visit(LEAK)
    by = {"did": [{"key": "d1", "named": "a neighbour's crew"}]}
    found = leak([told(0, OPENED), told(1, visit, by=by)], rests=Rests())
    assert found is not None
    assert list(found.gaps) == [gap("person_not_on_the_books", visit, "did.d1", named="a neighbour's crew")]


def test_a_row_that_two_rightings_left_half_empty_is_raised_and_stops_nothing() -> None:
    attempt = m.attempt(LEAK, materials=[{"key": "m1", "used": "1"}], people=[{"key": "p1", "task": "weld"}])
    assert [(each.code, each.facts) for each in gaps(attempt)] == [
        ("lot_not_on_the_books", {"named": ""}),
        ("person_not_on_the_books", {"named": ""}),
    ]


def test_a_measure_kept_as_text_is_raised_until_it_is_corrected() -> None:
    attempt = m.attempt(LEAK, pressure_found="about a hand", kept_as_text=[{"key": "k1", "field": "pressure_found"}])
    correction = told(2, m.corrected(attempt["id"], ("pressure_found", "45 psi")))
    understood = {"now.pressure_found": "310.264078 kPa gauge"}
    settled = told(2, dict(correction.said), understood=understood)
    assert gaps(attempt) == [gap("measure_kept_as_text", attempt, "pressure_found", field="pressure_found")]
    found = leak(standing([*story(OPENED, attempt), settled]), rests=Rests())
    assert found is not None
    assert found.gaps == ()


def test_a_measure_kept_as_text_and_then_taken_away_is_settled() -> None:
    attempt = m.attempt(LEAK, pressure_found="about a hand", kept_as_text=[{"key": "k1", "field": "pressure_found"}])
    assert gaps(attempt, m.corrected(attempt["id"], ("pressure_found", None))) == []


def test_a_grade_of_no_known_rank_is_raised() -> None:
    grade = m.grade(LEAK, grade="C")
    assert gaps(grade) == [gap("grade_not_known", grade, grade="C")]
    assert gaps(m.grade(LEAK, grade="C", rank=2)) == []


def test_a_test_or_review_of_what_is_no_attempt_of_this_leak_is_raised() -> None:
    attempt = m.attempt(LEAK)
    named = [m.test_of(LEAK, m.new_id()), m.review(LEAK, m.new_id())]
    assert gaps(attempt, *named) == [gap("attempt_not_of_this_leak", each) for each in named]


def test_a_test_of_an_attempt_that_was_made_void_is_raised() -> None:
    attempt = m.attempt(LEAK)
    test = m.test_of(LEAK, attempt["id"])
    assert gaps(attempt, test, m.void(attempt["id"])) == [gap("attempt_not_of_this_leak", test)]


def test_an_entry_sent_after_leaving_is_raised() -> None:
    visit = m.visit(LEAK)
    found = leak([told(0, OPENED), told(1, visit, by={"left_on": "2026-02-28"})], rests=Rests())
    assert found is not None
    assert list(found.gaps) == [gap("sent_after_leaving", visit, left_on="2026-02-28")]


def test_what_stands_on_a_leak_opened_in_error_is_raised_and_nothing_else() -> None:
    visit, attempt = m.visit(LEAK), m.attempt(LEAK, materials=[{"key": "m1", "named": "W-81?"}])
    correction = m.corrected(visit["id"], ("ground", "wet"))
    assert gaps(visit, attempt, correction, m.void(LEAK)) == [
        gap("stands_on_a_leak_opened_in_error", visit, kind="visit"),
        gap("stands_on_a_leak_opened_in_error", attempt, kind="repair_attempted"),
    ]


def test_a_figure_that_was_kept_from_an_entry_of_another_leak_is_raised() -> None:
    visit = m.visit(LEAK)
    kept = [kept_figure(LEAK, **named) for named in ({}, {"from_entry": visit["id"]}, {"from_entry": m.new_id()})]
    assert gaps(visit, *kept) == [gap("figure_from_no_entry", kept[2])]


def test_an_entry_that_is_void_raises_nothing() -> None:
    attempt = m.attempt(LEAK, materials=[{"key": "m1", "named": "W-81?"}])
    assert gaps(attempt, m.void(attempt["id"])) == []


def test_a_lot_that_stands_under_two_records_with_two_last_days_is_a_question_between_them() -> None:
    opened, attempt = OPENED, m.attempt(LEAK, materials=[{"key": "m1", "lot": str(TAPE.id)}])
    other = replace(TAPE, id=UUID(int=7), expires_on="2026-03-04", same=(TAPE.id,))
    found = leak(standing(story(opened, attempt)), rests=rests_of([TAPE, other]))
    facts = {"lot_number": "W-0118", "used_on": "2026-03-05", "first_on": "2026-03-04", "last_on": TAPE.expires_on}
    assert found is not None
    assert list(found.gaps) == [gap("lot_used_between_its_last_days", attempt, "materials.m1", **facts)]


def test_every_gap_of_the_trade_is_tested_here_or_beside() -> None:
    here = "".join(each.read_text() for each in Path(__file__).parent.glob("**/test_*.py"))
    assert {code for code in gap_codes() if f'"{code}"' not in here} == set()
