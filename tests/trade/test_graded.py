"""A grade that is lower than readings call for is raised, by the rulebook of its day, until somebody approves it.

The rulebook is invented; that a lower grade than readings call for is asked about: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.adopted import Adoption
from repairlog.trade.area import Area
from repairlog.trade.gap import Gap
from repairlog.trade.leak import Leak, leak
from repairlog.trade.rests import rests_of
from tests.makers import book as m
from tests.makers.rulebooks import RULEBOOK
from tests.makers.told import told

LEAK = m.new_id()
HERE = Area(
    id=UUID(m.new_id()),
    name="Eastmarsh",
    code="ES",
    zone="America/New_York",
    elevation="",
    lel_basis="5.0",
    settings_version=2,
    adoptions=(Adoption(entry=UUID(m.new_id()), rulebook="example", digest=RULEBOOK.digest, from_on="2026-03-03"),),
)
OPENED = {"kind": "leak_opened", "id": LEAK, "area": str(HERE.id), "happened": "2026-03-01"}
SPACE_80 = {"called": "1", "says": "space-80", "clause": "1.1"}


def looked(canonical: str = "4 %gas methane", *, happened: str = "2026-03-03 08:00") -> dict[str, Any]:
    """A manhole with that reading, which the story below seals as understood."""
    row = {"key": "r1", "place": "p1", "value": canonical}
    return m.visit(LEAK, happened=happened, places=[{"key": "p1", "kind": "manhole"}], readings=[row])


def leak_of(*said: dict[str, Any], area: Area = HERE, sure: str = "password") -> Leak:
    """The leak of these entries, of which readings are understood as they are typed."""
    story = []
    for index, each in enumerate((OPENED, *said)):
        understood = {f"readings.{row['key']}.value": row["value"] for row in each.get("readings", ())}
        story.append(told(index, each, understood=understood, by={"sure": sure}))
    rests = rests_of([area])
    rests.rulebooks[RULEBOOK.digest] = RULEBOOK
    found = leak(standing(story), rests=rests)
    assert found is not None
    return found


def lower(of: Leak) -> list[Gap]:
    return [each for each in of.gaps if each.code == "graded_lower_than_called_for"]


@pytest.mark.parametrize(
    ("reading", "grade", "facts"),
    [
        ("4 %gas methane", "1", None),
        ("4 %gas methane", "2", SPACE_80 | {"grade": "2"}),
        ("3.99 %gas methane", "2", None),
        ("3.99 %gas methane", "3", {"called": "2", "says": "space-20", "clause": "1.1", "grade": "3"}),
        ("0 %gas methane", "3", None),
    ],
)
def test_a_grade_is_held_against_the_last_readings_before_it(
    reading: str, grade: str, facts: dict[str, str] | None
) -> None:
    graded = m.grade(LEAK, grade=grade, happened="2026-03-03 09:00")
    expected = [Gap(code="graded_lower_than_called_for", entry=UUID(graded["id"]), facts=facts)] if facts else []
    assert lower(leak_of(looked(reading), graded)) == expected


def test_what_was_only_taken_to_be_so_raises_nothing() -> None:
    """85 %LEL in another's small substructure is grade 1 if gas is likely to reach a wall, which nobody answered."""
    look = looked("4.25 %gas methane") | {"places": [{"key": "p1", "kind": "catch_basin", "owner": "sewer"}]}
    assert lower(leak_of(look, m.grade(LEAK, grade="3", happened="2026-03-03 09:00"))) == []


def test_a_later_look_and_a_later_grade_count_each_for_themselves() -> None:
    first = m.grade(LEAK, grade="1", happened="2026-03-03 09:00")
    vented = looked("0.5 %gas methane", happened="2026-03-04 09:00")
    later = m.grade(LEAK, grade="3", happened="2026-03-04 09:30")
    assert lower(leak_of(looked(), first, vented, later)) == []


@pytest.mark.parametrize(("day", "raised"), [("2026-03-02", False), ("2026-03-03", True), ("2026-03-04", True)])
def test_the_rulebook_that_holds_on_the_day_of_the_grade_counts(day: str, raised: bool) -> None:
    graded = m.grade(LEAK, grade="3", happened=f"{day} 09:00")
    assert bool(lower(leak_of(looked(happened=f"{day} 08:00"), graded))) is raised


@pytest.mark.parametrize(("outcome", "raised"), [("approved", False), ("not_approved", True)])
def test_a_supervisor_who_approves_it_settles_it_and_a_refused_first_grade_still_stands(
    outcome: str, raised: bool
) -> None:
    graded = m.grade(LEAK, grade="3", happened="2026-03-03 09:00")
    review = m.downgrade(LEAK, graded["id"], outcome=outcome)
    found = leak_of(looked(), graded, review)
    assert (bool(lower(found)), found.grade_now and found.grade_now.code) == (raised, "3")


def test_without_a_look_a_rulebook_or_a_person_who_graded_nothing_is_raised() -> None:
    graded = m.grade(LEAK, grade="3", happened="2026-03-03 09:00")
    unbound = replace(HERE, adoptions=())
    found = [leak_of(graded), leak_of(looked(), graded, area=unbound), leak_of(looked(), graded, sure="import")]
    assert [lower(each) for each in found] == [[], [], []]
