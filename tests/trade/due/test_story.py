"""The life of a leak as its entries tell it, and what is owed of it then. Common practice, no source."""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from repairlog.entries.entry import order_of_happening
from repairlog.entries.standing import standing
from repairlog.trade.attempts import attempts
from repairlog.trade.due import Graded, Life, When, life_of, owed
from repairlog.trade.grades import grades
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests
from tests.makers import book as m
from tests.makers.rulebooks import RULEBOOK, due
from tests.makers.told import story

LEAK = m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 07:52"}
TEE, VALVE = m.source(LEAK), m.source(LEAK, happened="2026-03-03 09:30", component="valve")
GRADE_2 = m.grade(LEAK, grade="2", happened="2026-03-03 08:40")
ON_TEE = m.attempt(LEAK, source=TEE["id"], happened="2026-03-05 10:00")
ON_VALVE = m.attempt(LEAK, source=VALVE["id"], happened="2026-03-06 11:00")
REPAIR = due("repair-2", "repair", grades=("2",), counted_from="reported", within="6 months", until="repaired")


def life(*said: dict[str, Any]) -> Life:
    """The life of the leak after these entries."""
    stands = standing(story(OPENED, *said))
    live = sorted((entry for entry in stands if entry.void is None), key=order_of_happening)
    as_is = leak(stands, rests=Rests())
    assert as_is is not None
    return life_of(as_is.opened, live, done=attempts(live), grades=grades(live), ending=as_is.ending)


def settled(*said: dict[str, Any]) -> list[str]:
    """By what the repair was settled; empty while it is owed."""
    return [item.settled_by for item in owed(life(*said), replace(RULEBOOK, dues=(REPAIR,))).items]


def zeros(**fields: Any) -> dict[str, Any]:
    """A visit at which nothing was read."""
    return m.visit(LEAK, readings=[], **fields)


def test_the_report_and_the_first_look_stand_with_their_moments() -> None:
    told = life(GRADE_2)
    at = datetime(2026, 3, 3, 7, 52, tzinfo=UTC)
    assert (told.reported, told.found) == (told.reported, told.reported)
    assert (told.reported and told.reported.on, told.reported and told.reported.at) == (date(2026, 3, 3), at)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ([TEE], [""]),
        ([TEE, ON_TEE], ["repaired"]),
        ([TEE, VALVE, ON_TEE], [""]),
        ([TEE, VALVE, ON_TEE, ON_VALVE], ["repaired"]),
        ([TEE, {**ON_TEE, "lasting": "temporary"}], [""]),
        ([TEE, {**ON_TEE, "outcome": "not_tight"}], [""]),
        ([TEE, ON_TEE, m.test_of(LEAK, ON_TEE["id"], result="not_tight")], [""]),
        ([TEE, ON_TEE, m.void(ON_TEE["id"])], [""]),
        ([TEE, ON_TEE, m.ending(LEAK, [ON_TEE["id"]], happened="2026-03-07")], ["repaired"]),
        ([m.ending(LEAK, how="no_reading", happened="2026-03-07")], ["ended"]),
        ([m.ending(LEAK, how="joined", joined_to=m.new_id(), happened="2026-03-07")], ["joined"]),
        ([m.ending(LEAK, how="joined", happened="2026-03-07")], [""]),
        ([m.ending(LEAK, how="replaced", happened="2026-03-07")], ["repaired"]),
        (
            [
                TEE,
                ON_TEE,
                m.ending(LEAK, [ON_TEE["id"]], happened="2026-03-07"),
                m.reopened(LEAK, happened="2026-04-01"),
            ],
            [""],
        ),
    ],
)
def test_a_repair_is_owed_until_every_source_is_tight_for_good_and_again_when_that_falls(
    said: list[dict[str, Any]], expected: list[str]
) -> None:
    assert settled(GRADE_2, *said) == expected


def test_a_grade_set_again_starts_no_clock_and_one_that_was_not_approved_is_none() -> None:
    again = m.grade(LEAK, grade="2", happened="2026-05-01")
    lower = m.grade(LEAK, grade="3", happened="2026-06-01")
    refused = m.downgrade(LEAK, lower["id"], outcome="not_approved", happened="2026-06-02")
    told = life(GRADE_2, again, lower, refused)
    assert [(each.code, each.since.on) for each in told.grades] == [("2", date(2026, 3, 3))]
    assert [each.code for each in life(GRADE_2, again, lower).grades] == ["2", "3"]


@pytest.mark.parametrize(
    ("values", "gas"),
    [
        (["0 %gas methane"], False),
        (["0 %gas methane", "0.0001 %gas methane"], True),
        ([], None),
        (["0 %gas methane", None], None),  # one that could not be read stands beside the zero
    ],
)
def test_a_look_finds_none_only_where_everything_read_was_zero(values: list[str | None], gas: bool | None) -> None:
    rows = [{"key": f"r{number}", "value": "typed"} for number, _ in enumerate(values)]
    visit = m.visit(LEAK, readings=rows)
    entries = story(OPENED, visit)
    understood = {f"readings.r{number}.value": value for number, value in enumerate(values) if value}
    live = [entries[0], replace(entries[1], understood={**entries[1].understood, **understood})]
    told = life_of(live[0], live, done=[], grades=[], ending=None)
    assert [look.gas for look in told.looks] == [gas]


def test_no_access_is_no_look() -> None:
    assert life(m.visit(LEAK, outcome="no_access", readings=[])).looks == ()


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ([zeros(frost="yes")], "frost"),
        ([zeros(ground="frozen")], "frost"),
        ([m.source(LEAK, material="plastic_pe")], "plastic_pipe"),
        ([m.waiting(LEAK, waits_on="project")], "replacement_planned"),
        ([TEE, {**ON_TEE, "lasting": "temporary"}], "temporary_repair"),
        ([m.ending(LEAK, how="other_gas")], "not_our_gas"),
    ],
)
def test_what_rules_hang_on_holds_where_an_entry_says_so_and_not_otherwise(
    said: list[dict[str, Any]], code: str
) -> None:
    assert (code in life(*said).holds, code in life(GRADE_2).holds) == (True, False)


def test_work_that_waits_on_a_project_no_longer_is_in_no_plan() -> None:
    waiting = m.waiting(LEAK, waits_on="project", happened="2026-03-10")
    assert "replacement_planned" not in life(waiting, m.goes_on(LEAK, happened="2026-03-20")).holds


@pytest.mark.parametrize(
    ("said", "days"),
    [
        ([{"kind": "moment_noted", "moment": "area_made_safe", "happened": "2026-03-03 09:00"}], [date(2026, 3, 3)]),
        ([{"kind": "moment_noted", "moment": "gas_under_control", "happened": "2026-03-03 09:00"}], []),
        ([TEE, {**ON_TEE, "lasting": "temporary"}], [date(2026, 3, 5)]),
        ([TEE, VALVE, ON_TEE], []),
    ],
)
def test_it_is_safe_by_word_of_those_there_or_when_every_source_is_tight(
    said: list[dict[str, Any]], days: list[date]
) -> None:
    told = life(*({"id": m.new_id(), "leak": LEAK, **each} for each in said))
    assert [when.on for when in told.made_safe] == days


def test_telling_the_fire_department_is_kept_by_its_first_time() -> None:
    calls = [
        {"kind": "told", "id": m.new_id(), "subject": LEAK, "whom": whom, "happened": happened}
        for whom, happened in (
            ("fire_department", "2026-03-03 08:00"),
            ("fire_department", "2026-03-03 10:00"),
            ("city", "2026-03-03 08:00"),
        )
    ]
    done = life(*calls).done
    assert {task: when.at for task, when in done.items()} == {
        "tell_fire_department": datetime(2026, 3, 3, 8, tzinfo=UTC)
    }


def test_a_grade_on_a_day_that_is_only_the_latest_it_can_have_been_starts_no_clock() -> None:
    listed = m.grade(LEAK, grade="2", happened="2026-03-03", happened_known="on_or_before")
    (graded,) = life(listed).grades
    assert graded == Graded(code="2", since=When(on=date(2026, 3, 3), entry=graded.since.entry, known=False), rank=2)
