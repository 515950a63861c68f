"""A leak as its entries tell of it: status, grades, sources, bar holes, its end.

Common practice, no source: a leak ends by a lasting repair of every source that tested tight, or in another way that
says why.
"""

from typing import Any
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.standing import standing
from repairlog.trade.bar_holes import BarHole
from repairlog.trade.grades import Grade
from repairlog.trade.leak import Leak, leak
from repairlog.trade.rests import Rests
from tests.makers import book as m
from tests.makers.told import story, told

LEAK = m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
TEE, VALVE = m.source(LEAK), m.source(LEAK, happened="2026-03-03 09:30", component="valve")
ON_TEE = m.attempt(LEAK, source=TEE["id"], happened="2026-03-05 10:00")
ON_VALVE = m.attempt(LEAK, source=VALVE["id"], happened="2026-03-06 11:00")
END = m.ending(LEAK, [ON_TEE["id"]], happened="2026-03-07")


def now(*said: dict[str, Any]) -> Leak:
    """The leak after these entries, which come after its opening."""
    found = leak(standing(story(OPENED, *said)), rests=Rests())
    assert found is not None
    return found


def ended(*said: dict[str, Any]) -> tuple[str, str, tuple[str, ...]]:
    """Status, day of the ending that counts, and what the first ending lacks."""
    as_is = now(*said)
    why = [gap.facts["why"] for gap in as_is.gaps if gap.code == "ending_does_not_hold"]
    return as_is.status, as_is.ending.on if as_is.ending else "", tuple(why)


def test_entries_without_an_opening_tell_of_no_leak() -> None:
    assert (leak([], rests=Rests()), leak(story(m.grade(LEAK)), rests=Rests())) == (None, None)


def test_a_leak_just_opened_is_open_and_nothing_more() -> None:
    opened = told(0, OPENED)
    assert leak([opened], rests=Rests()) == Leak(
        opened=opened,
        area=UUID(OPENED["area"]),
        status="open",
        grade_found=None,
        grade_now=None,
        ending=None,
        sources=(),
        attempts=(),
        bar_holes=(),
        reopened_on="",
        scheduled=None,
        in_hand=(),
        waits=None,
        gaps=(),
    )


def test_a_leak_opened_in_error_says_so_and_has_no_ending() -> None:
    as_is = now(TEE, ON_TEE, END, m.void(LEAK))
    assert (as_is.status, as_is.ending) == ("opened_in_error", None)


def test_a_leak_whose_void_is_void_is_open_again() -> None:
    void = m.void(LEAK)
    assert now(void, m.void(void["id"])).status == "open"


def test_the_grade_found_is_the_first_that_happened_and_the_grade_now_the_last() -> None:
    as_is = now(
        m.grade(LEAK, grade="3", happened="2026-06-01"),
        m.grade(LEAK, grade="2", happened="2026-03-03 08:40"),
        m.grade(LEAK, grade="1", happened="2026-04-01"),
    )
    assert (as_is.grade_found, as_is.grade_now) == (Grade(code="2", rank=2), Grade(code="3", rank=3))


def test_a_grade_that_is_void_was_never_set() -> None:
    first = m.grade(LEAK, grade="1")
    as_is = now(first, m.grade(LEAK, grade="2", happened="2026-03-04"), m.void(first["id"]))
    assert (as_is.grade_found, as_is.grade_now) == (Grade(code="2", rank=2), Grade(code="2", rank=2))


def test_a_grade_of_no_known_rank_stands_without_one() -> None:
    assert now(m.grade(LEAK, grade="C")).grade_now == Grade(code="C", rank=None)


def test_sources_are_numbered_as_they_were_found() -> None:
    found = [(each.id, each.number, each.tight_on) for each in now(VALVE, TEE).sources]
    assert found == [(UUID(TEE["id"]), 1, ""), (UUID(VALVE["id"]), 2, "")]


@pytest.mark.parametrize(
    ("attempts", "tight_on"),
    [
        ([("2026-03-05", "permanent", "tight")], "2026-03-05"),
        ([("2026-03-05", "permanent", "not_tight"), ("2026-03-06", "permanent", "tight")], "2026-03-06"),
        ([("2026-03-05", "permanent", "tight"), ("2026-03-06", "permanent", "not_tight")], ""),
        ([("2026-03-05", "permanent", "tight"), ("2026-03-06", "temporary", "tight")], "2026-03-05"),
        ([("2026-03-05", "temporary", "tight")], ""),
    ],
)
def test_a_source_is_tight_by_its_last_permanent_attempt(attempts: list[tuple[str, ...]], tight_on: str) -> None:
    said = [m.attempt(LEAK, source=TEE["id"], happened=on, lasting=how, outcome=word) for on, how, word in attempts]
    assert now(TEE, *said).sources[0].tight_on == tight_on


def test_a_leak_is_ended_on_the_day_of_its_tight_attempt_not_of_the_ending() -> None:
    assert ended(TEE, ON_TEE, END) == ("ended", "2026-03-05", ())


def test_with_two_sources_the_later_attempt_gives_the_day() -> None:
    both = m.ending(LEAK, [ON_VALVE["id"], ON_TEE["id"]], happened="2026-03-07")
    assert ended(TEE, VALVE, ON_TEE, ON_VALVE, both) == ("ended", "2026-03-06", ())


def test_a_source_that_no_named_attempt_is_on_keeps_the_leak_open() -> None:
    assert ended(TEE, VALVE, ON_TEE, ON_VALVE, END) == ("open", "", ("source_without_attempt",))


def test_a_source_that_was_void_asks_for_no_attempt() -> None:
    assert ended(TEE, VALVE, ON_TEE, END, m.void(VALVE["id"]))[0] == "ended"


def test_a_leak_without_sources_ends_by_an_attempt_on_none() -> None:
    attempt = m.attempt(LEAK)
    assert ended(attempt, m.ending(LEAK, [attempt["id"]])) == ("ended", "2026-03-05", ())


def test_a_repair_alone_ends_nothing() -> None:
    assert ended(TEE, ON_TEE, m.review(LEAK, ON_TEE["id"])) == ("open", "", ())


def test_an_ending_by_repair_that_names_no_attempt_does_not_hold() -> None:
    assert ended(m.ending(LEAK, [])) == ("open", "", ("no_attempt_named",))


def test_a_temporary_repair_never_ends_a_leak() -> None:
    clamp = m.attempt(LEAK, source=TEE["id"], lasting="temporary")
    assert ended(TEE, clamp, m.ending(LEAK, [clamp["id"]])) == ("open", "", ("attempt_temporary",))


@pytest.mark.parametrize("outcome", ["not_tight", "not_tested"])
def test_an_attempt_that_is_not_tight_ends_nothing(outcome: str) -> None:
    attempt = m.attempt(LEAK, outcome=outcome)
    assert ended(attempt, m.ending(LEAK, [attempt["id"]])) == ("open", "", ("attempt_not_tight",))


def test_a_leak_is_open_again_when_its_attempt_turns_out_not_tight() -> None:
    test = m.test_of(LEAK, ON_TEE["id"], happened="2026-04-01", result="not_tight")
    assert ended(TEE, ON_TEE, END, test) == ("open", "", ("attempt_not_tight",))
    assert ended(TEE, ON_TEE, END, test, m.void(test["id"])) == ("ended", "2026-03-05", ())


def test_a_leak_is_open_again_when_its_attempt_is_made_void() -> None:
    void = m.void(ON_TEE["id"])
    assert ended(TEE, ON_TEE, END, void) == ("open", "", ("attempt_not_there, source_without_attempt",))
    assert ended(TEE, ON_TEE, END, void, m.void(void["id"])) == ("ended", "2026-03-05", ())


def test_a_leak_is_open_again_when_its_ending_is_made_void() -> None:
    assert ended(TEE, ON_TEE, END, m.void(END["id"])) == ("open", "", ())


def test_a_source_found_after_the_end_opens_the_leak_again() -> None:
    found = m.source(LEAK, happened="2026-05-01")
    assert ended(TEE, ON_TEE, END, found) == ("open", "", ("source_without_attempt",))


def test_a_temporary_attempt_on_top_of_the_tight_one_changes_no_ending() -> None:
    later = m.attempt(LEAK, source=TEE["id"], lasting="temporary", outcome="not_tight", happened="2026-05-01")
    assert ended(TEE, ON_TEE, END, later)[0] == "ended"


def test_an_ending_that_names_the_failed_attempt_too_does_not_hold() -> None:
    failed = m.attempt(LEAK, source=TEE["id"], outcome="not_tight", happened="2026-03-04")
    both = m.ending(LEAK, [failed["id"], ON_TEE["id"]])
    assert ended(TEE, failed, ON_TEE, both) == ("open", "", ("attempt_not_tight",))


@pytest.mark.parametrize("how", ["replaced", "retired", "adjusted", "no_reading", "customers", "other_gas"])
def test_another_way_of_ending_counts_on_its_own_day(how: str) -> None:
    assert ended(TEE, m.ending(LEAK, [], how=how, happened="2026-03-08")) == ("ended", "2026-03-08", ())


@pytest.mark.parametrize(("first", "second"), [(0, 1), (1, 0)])
def test_of_two_endings_the_earlier_stands_whichever_came_in_first(first: int, second: int) -> None:
    ways = [
        m.ending(LEAK, [], how="no_reading", happened="2026-03-08"),
        m.ending(LEAK, [], how="retired", happened="2026-03-09"),
    ]
    as_is = now(ways[first], ways[second])
    assert as_is.ending is not None
    assert (as_is.ending.entry.text("how"), as_is.ending.on) == ("no_reading", "2026-03-08")
    assert [(gap.code, str(gap.entry)) for gap in as_is.gaps] == [("ended_twice", ways[1]["id"])]


def test_the_earlier_ending_is_that_of_the_earlier_repair_not_of_the_earlier_word() -> None:
    retired = m.ending(LEAK, [], how="retired", happened="2026-03-06")
    as_is = now(TEE, ON_TEE, END, retired)
    assert as_is.ending is not None
    assert as_is.ending.entry.text("how") == "repaired"


def test_an_ending_that_does_not_hold_gives_way_to_a_later_one() -> None:
    empty = m.ending(LEAK, [], happened="2026-03-04")
    assert ended(TEE, ON_TEE, empty, END) == (
        *("ended", "2026-03-05"),
        ("no_attempt_named, source_without_attempt",),
    )


def holes(*visits: dict[str, Any]) -> list[tuple[str, int, str]]:
    """Key, number and label of every bar hole."""
    return [(hole.key, hole.number, hole.label) for hole in now(*visits).bar_holes]


def hole(key: str, **fields: str) -> dict[str, Any]:
    """A bar hole among a visit's places."""
    return {"key": key, "kind": "bar_hole", **fields}


FIRST = m.visit(LEAK, happened="2026-03-03", places=[hole("p1", label="A"), hole("p2", label="B")], readings=[])


def again(of: dict[str, Any], key: str, *, on: str, label: str = "") -> dict[str, Any]:
    """A visit that looks at that place again, as its own `q1`, and at a new one, `q2`."""
    same = hole("q1", same_as=f"{of['id']}/{key}", **({"label": label} if label else {}))
    return m.visit(LEAK, happened=on, places=[same, hole("q2", label="C")], readings=[])


def test_bar_holes_are_numbered_as_they_were_first_looked_at_and_keep_their_labels() -> None:
    assert now(FIRST).bar_holes == (
        BarHole(entry=UUID(FIRST["id"]), key="p1", number=1, label="A"),
        BarHole(entry=UUID(FIRST["id"]), key="p2", number=2, label="B"),
    )


def test_other_places_are_no_bar_holes() -> None:
    assert holes(m.visit(LEAK)) == [("p1", 1, "6 ft from wall"), ("p2", 2, "over the service")]


def test_the_same_hole_looked_at_again_is_no_new_one() -> None:
    assert holes(FIRST, again(FIRST, "p2", on="2026-04-01")) == [("p1", 1, "A"), ("p2", 2, "B"), ("q2", 3, "C")]


def test_the_same_hole_is_known_through_the_last_visit_s_name_for_it() -> None:
    second = again(FIRST, "p2", on="2026-04-01", label="B, by the wall")
    third = again(second, "q1", on="2026-05-01")
    assert holes(FIRST, second, third) == [("p1", 1, "A"), ("p2", 2, "B"), ("q2", 3, "C"), ("q2", 4, "C")]


def test_the_same_hole_is_known_though_the_visit_that_first_named_it_is_void() -> None:
    second = again(FIRST, "p1", on="2026-04-01", label="A")
    third = again(FIRST, "p1", on="2026-05-01")
    assert holes(FIRST, second, third, m.void(FIRST["id"])) == [("q1", 1, "A"), ("q2", 2, "C"), ("q2", 3, "C")]


def test_an_earlier_visit_that_comes_in_late_takes_the_first_numbers() -> None:
    earlier = m.visit(LEAK, happened="2026-03-02", places=[hole("x", label="Z")], readings=[])
    assert holes(FIRST, earlier) == [("x", 1, "Z"), ("p1", 2, "A"), ("p2", 3, "B")]


EVERY = [
    TEE,
    VALVE,
    ON_TEE,
    ON_VALVE,
    END,
    FIRST,
    m.grade(LEAK, grade="1"),
    m.grade(LEAK, grade="3", happened="2026-05-05"),
    m.test_of(LEAK, ON_TEE["id"]),
    m.review(LEAK, ON_TEE["id"]),
    m.void(ON_VALVE["id"]),
    m.ending(LEAK, [ON_TEE["id"], ON_VALVE["id"]], happened="2026-03-08"),
]


@given(st.permutations(EVERY))
def test_a_leak_is_the_same_in_whatever_order_its_entries_are_given(said: list[dict[str, Any]]) -> None:
    at = {each["id"]: index for index, each in enumerate(EVERY, start=1)}
    entries = [told(at[each["id"]], each) for each in said]
    in_order = [told(at[each["id"]], each) for each in EVERY]
    opened = told(0, OPENED)
    assert leak(standing([*entries, opened]), rests=Rests()) == leak(standing([opened, *in_order]), rests=Rests())
