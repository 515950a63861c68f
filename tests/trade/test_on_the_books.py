"""What the books say of whom and what a leak names: raised where nothing on them holds, from the cut-over day on.

Sources: 49 CFR 192.805 (b) and (c), whoever does a covered task is qualified for it or watched; WAC 480-93-188, an
instrument is calibrated on a schedule. The cut-over day is decided by us.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.area import Area
from repairlog.trade.gap import Gap
from repairlog.trade.instrument import Calibration, Instrument
from repairlog.trade.leak import leak
from repairlog.trade.person import Qualification, Qualified
from repairlog.trade.rests import Rested, changes_from, rests_of
from tests.makers import book as m
from tests.makers.told import story, told

LEAK, WHO, METER, AREA = (m.new_id() for _ in range(4))
OPENED = {"kind": "leak_opened", "id": LEAK, "area": AREA, "happened": "2026-03-03 07:52"}
FOR_CLAMPS = Qualification(entry=UUID(m.new_id()), task="Install clamp", from_on="2026-03-01", until_on="2026-03-05")
ALDOUS = Qualified(id=UUID(WHO), name="M. Aldous", void=False, qualifications=(FOR_CLAMPS,))
DETECTOR = Instrument(
    id=UUID(METER),
    area=AREA,
    mark="G-3",
    what="gas detector",
    retired_on="",
    checked_on="",
    check="",
    void=False,
    calibrations=(
        Calibration(entry=UUID(m.new_id()), on="2026-03-01", result="in_tolerance", next_due_on="2026-03-03"),
    ),
)


def area(cut_over_on: str) -> Area:
    words = {"name": "Eastmarsh", "code": "ES", "zone": "UTC", "elevation": "", "lel_basis": "5.0"}
    return Area(id=UUID(AREA), settings_version=2, cut_over_on=cut_over_on, **words)


def gaps(*said: dict[str, Any], on: tuple[Rested, ...] = (ALDOUS, DETECTOR)) -> list[Gap]:
    found = leak(standing(story(OPENED, *said)), rests=rests_of(on))
    assert found is not None
    return list(found.gaps)


def done_by(*rows: dict[str, str], **fields: Any) -> dict[str, Any]:
    return m.attempt(LEAK, people=[{"key": f"p{n}"} | row for n, row in enumerate(rows, start=1)], **fields)


@pytest.mark.parametrize(("happened", "raised"), [("2026-03-04", False), ("2026-03-05", False), ("2026-03-06", True)])
def test_a_task_without_a_qualification_that_holds_on_its_day_is_raised(happened: str, raised: bool) -> None:
    attempt = done_by({"person": WHO, "task": "install  clamp"}, happened=happened)
    facts = {"person": "M. Aldous", "task": "install  clamp", "done_on": happened}
    wanted = Gap(code="qualification_not_on_the_books", entry=UUID(attempt["id"]), row="people.p1", facts=facts)
    assert gaps(attempt) == ([wanted] if raised else [])


def test_a_qualification_for_another_task_is_none_for_this_one() -> None:
    attempt = done_by({"person": WHO, "task": "squeeze off"})
    assert [each.code for each in gaps(attempt)] == ["qualification_not_on_the_books"]


def test_nothing_is_said_of_a_task_that_is_not_named_or_of_somebody_who_is_not_on_the_books() -> None:
    attempt = done_by({"person": WHO}, {"named": "a helper", "task": "install clamp"})
    assert [(each.code, each.row) for each in gaps(attempt)] == [("person_not_on_the_books", "people.p2")]


@pytest.mark.parametrize(("happened", "raised"), [("2026-03-02", False), ("2026-03-03", False), ("2026-03-04", True)])
def test_an_instrument_whose_calibration_does_not_hold_on_that_day_is_raised(happened: str, raised: bool) -> None:
    visit = m.visit(LEAK, happened=happened, instrument="G-3", instrument_used=METER)
    facts = {"mark": "G-3", "done_on": happened}
    wanted = Gap(code="calibration_not_on_the_books", entry=UUID(visit["id"]), row="instrument", facts=facts)
    assert gaps(visit) == ([wanted] if raised else [])


def test_an_instrument_that_is_only_named_is_raised_as_not_on_the_books_of_a_reading_too() -> None:
    readings = [{"key": "r1", "value": "0 %LEL", "instrument": "G-9"}, {"key": "r2", "value": "0 %LEL"}]
    visit = m.visit(LEAK, instrument="G-3", instrument_used=METER, readings=[*readings, {**readings[0], "key": "r3"}])
    facts = {"named": "G-9"}  # named twice, raised once
    wanted = Gap(code="instrument_not_on_the_books", entry=UUID(visit["id"]), row="readings.r1", facts=facts)
    assert gaps(visit) == [wanted]


@pytest.mark.parametrize(("cut_over_on", "raised"), [("2026-03-02", True), ("2026-03-03", True), ("2026-03-04", False)])
def test_before_the_cut_over_day_nothing_that_is_missing_is_raised(cut_over_on: str, raised: bool) -> None:
    visit = m.visit(LEAK, happened="2026-03-03", instrument="G-9")
    attempt = done_by({"person": WHO, "task": "squeeze off"}, {"named": "a helper"}, happened="2026-03-03")
    attempt["materials"] = [{"key": "m1", "named": "W-81?"}]
    assert len(gaps(visit, attempt, on=(ALDOUS, area(cut_over_on)))) == (4 if raised else 0)


@pytest.mark.parametrize(
    ("kind", "first"),
    [
        ("note", None),
        ("role_given", None),
        ("instrument_checked", None),
        ("qualified", "2026-03-04"),
        ("person_left", "2026-03-04"),
        ("instrument_calibrated", "2026-03-04"),
        ("lot_received", ""),
        ("cut_over_set", ""),
        ("corrected", ""),
    ],
)
def test_what_an_entry_may_change_of_leaks_that_rest_on_its_subject(kind: str, first: str | None) -> None:
    assert changes_from(kind, on="2026-03-04") == first


GONE = Qualified(id=UUID(WHO), name="M. Aldous", void=False, qualifications=(), left_on="2026-03-04")


def after_leaving(*said: dict[str, Any], on: tuple[Rested, ...] = (GONE,)) -> list[tuple[str, str]]:
    found = leak(
        standing([told(0, OPENED), *(told(n, each, by=BY) for n, each in enumerate(said, 1))]), rests=rests_of(on)
    )
    assert found is not None
    return [(gap.row, gap.facts["left_on"]) for gap in found.gaps if gap.code == "done_after_leaving"]


BY = {"did": [{"key": "d1", "person": WHO}]}


@pytest.mark.parametrize(("happened", "raised"), [("2026-03-03", False), ("2026-03-04", False), ("2026-03-05", True)])
def test_work_by_somebody_who_had_left_before_that_day_is_raised(happened: str, raised: bool) -> None:
    visit = m.visit(LEAK, happened=f"{happened} 08:00")
    assert after_leaving(visit) == ([("did.d1", "2026-03-04")] if raised else [])


def test_it_is_said_once_of_each_and_of_whom_the_books_know() -> None:
    attempt = done_by({"person": WHO}, {"named": "a helper"}, {"person": m.new_id()})
    assert after_leaving(attempt) == [("did.d1", "2026-03-04")]


def test_what_is_written_beside_the_work_and_a_day_that_nobody_knows_accuse_nobody() -> None:
    listed = m.visit(LEAK, happened="2026-03-05", happened_known="on_or_before")
    assert after_leaving(m.note(LEAK, happened="2026-03-05"), listed) == []


def test_whoever_is_there_by_another_record_has_not_left() -> None:
    came_back = Qualified(id=UUID(m.new_id()), name="M. Aldous", void=False, qualifications=(), same=(UUID(WHO),))
    later = replace(came_back, left_on="2026-03-07")
    days = ("2026-03-05", "2026-03-08")
    visits = [m.visit(LEAK, happened=day) for day in days]
    assert after_leaving(*visits, on=(GONE, came_back)) == []
    assert after_leaving(*visits, on=(GONE, later)) == [("did.d1", "2026-03-07")]
