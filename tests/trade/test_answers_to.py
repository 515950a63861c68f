"""Which area a subject answers to, now and then.

Decided by us, no source: a move accuses nobody of having worked by the rules of where they worked.
"""

from __future__ import annotations

from itertools import permutations
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.answers_to import answers_of
from repairlog.trade.area import area
from repairlog.trade.call import call
from repairlog.trade.dig import dig
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests, rests_of
from tests.makers import book as m
from tests.makers.told import story, told

HERE, THERE, FURTHER, LEAK = (m.new_id() for _ in range(4))
OPENED = {"kind": "leak_opened", "id": LEAK, "area": HERE, "happened": "2026-03-03 07:52"}
FIRST = m.moved(LEAK, THERE, happened="2026-03-04")
THEN = m.moved(LEAK, FURTHER, happened="2026-03-05")


def areas(*said: dict[str, Any]) -> list[str]:
    """The area it was opened in and those to which it answered after it, in their order."""
    found = answers_of(standing([told(index, each, **_now(each)) for index, each in enumerate((OPENED, *said))]))
    assert found is not None
    assert found.now == (found.moves[-1].to_area if found.moves else found.first)
    return [str(found.first), *(str(move.to_area) for move in found.moves)]


def _now(said: dict[str, Any]) -> dict[str, Any]:
    """What a correction makes of days and areas, as the door would seal it."""
    put = {change["field"]: change["to"] for change in said.get("changes", ())}
    on = put.get("happened") or ("2026-03-03" if "area" in put else "")
    return {"understood": {"now.happened_on": on, "now.zone": "UTC"}} if on else {}


def test_what_was_never_moved_answers_to_the_area_it_was_opened_in() -> None:
    assert areas() == [HERE]


def test_what_nothing_opens_and_what_is_never_moved_answers_to_none() -> None:
    person = {"kind": "person_added", "id": m.new_id(), "name": "T. Birkett", "happened": "2026-03-03"}
    assert (answers_of([]), answers_of(story(FIRST)), answers_of(story(person))) == (None, None, None)


@pytest.mark.parametrize("order", [*permutations((FIRST, THEN))])
def test_the_move_that_happened_last_counts_whichever_came_in_last(order: tuple[dict[str, Any], ...]) -> None:
    assert areas(*order) == [HERE, THERE, FURTHER]


def test_a_move_made_void_leaves_it_where_the_one_before_brought_it_and_restored_counts_again() -> None:
    void = m.void(THEN["id"])
    assert areas(FIRST, THEN, void) == [HERE, THERE]
    assert areas(FIRST, THEN, void, m.void(void["id"])) == [HERE, THERE, FURTHER]


def test_a_correction_of_where_or_when_it_went_counts() -> None:
    assert areas(FIRST, m.corrected(FIRST["id"], ("to_area", FURTHER))) == [HERE, FURTHER]
    assert areas(FIRST, THEN, m.corrected(THEN["id"], ("happened", "2026-03-03"))) == [HERE, FURTHER, THERE]


def test_a_wrong_area_of_the_opening_was_always_wrong_and_moves_nothing() -> None:
    assert areas(FIRST, m.corrected(LEAK, ("area", FURTHER))) == [FURTHER, THERE]


@pytest.mark.parametrize(
    ("happened", "answered"),
    [
        ("2026-03-03 08:00", HERE),
        ("2026-03-04 09:59", HERE),
        ("2026-03-04 10:00", THERE),
        ("2026-03-04 10:01", THERE),
        ("2026-03-06", THERE),
    ],
)
def test_an_entry_is_told_of_the_area_to_which_its_subject_answered_when_it_happened(
    happened: str, answered: str
) -> None:
    move, note = m.moved(LEAK, THERE, happened="2026-03-04 10:00"), m.note(LEAK, happened=happened)
    entries = story(OPENED, move, note)
    found = answers_of(entries)
    assert found is not None
    assert str(found.then(entries[-1])) == answered


@pytest.mark.parametrize(
    ("on", "since"), [("2026-03-03", {HERE, THERE}), ("2026-03-04", {HERE, THERE}), ("2026-03-05", {THERE})]
)
def test_what_was_written_on_the_day_of_a_move_may_be_of_either_area(on: str, since: set[str]) -> None:
    found = answers_of(story(OPENED, FIRST))
    assert found is not None
    assert found.since(on) == {UUID(each) for each in since}


def test_a_leak_a_call_and_a_dig_that_go_nowhere_are_raised_and_stay_where_they_are() -> None:
    for opened, fold in (
        (OPENED, lambda told: leak(told, rests=Rests())),
        (OPENED | {"kind": "call_received", "report": "odor"}, call),
        (OPENED | {"kind": "dig_opened", "ticket": "T-1"}, dig),
    ):
        nowhere = m.moved(LEAK, HERE)
        found = fold(story(opened, nowhere))
        assert (str(found.area), [(gap.code, str(gap.entry)) for gap in found.gaps]) == (
            HERE,
            [("moved_to_where_it_was", nowhere["id"])],
        )


def test_a_move_accuses_nobody_of_having_worked_by_the_rules_of_where_they_worked() -> None:
    """The area it goes to asks for people on the books since long ago, the one it left does so since yesterday."""
    opened = {"kind": "area_opened", "name": "x", "code": "X", "zone": "UTC", "happened": "2025-01-02"}
    there = [told(0, opened | {"id": THERE}), told(1, m.cut_over(THERE, cut_over_on="2025-01-02"))]
    here = [told(0, opened | {"id": HERE}), told(1, m.cut_over(HERE, cut_over_on="2026-03-06"))]
    rests = rests_of([of for each in (here, there) if (of := area(each))])
    before, after = (m.visit(LEAK, happened=f"2026-03-0{day}", did=None) for day in (3, 5))
    by = {"by": {"did": [{"key": "d1", "named": "a helper"}]}}
    entries = [told(0, OPENED), told(1, before, **by), told(2, FIRST), told(3, after, **by)]
    found = leak(entries, rests=rests)
    assert found is not None
    raised = [str(gap.entry) for gap in found.gaps if gap.code == "person_not_on_the_books"]
    assert raised == [after["id"]]
