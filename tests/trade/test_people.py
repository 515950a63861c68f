"""People, crews and instruments as their own stories leave them, day by day.

Sources: 49 CFR 192.805 (d) and (e), a qualification ends by doubt as by its day; 192.807 (a), it is kept with its
dates. Days counted in at both ends, and all of crews: common practice, no source.
"""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.crew import Crew, Member, OfCompany, crew
from repairlog.trade.instrument import Calibration, Instrument, instrument, was_calibrated
from repairlog.trade.person import Person, Qualification, Role, person
from tests.makers import book as m
from tests.makers.told import story

WHO, AREA, OTHER, CREW, METER = (m.new_id() for _ in range(5))
ADDED = {"kind": "person_added", "id": WHO, "name": "M. Aldous", "happened": "2025-01-02"}
MADE = {"kind": "crew_made", "id": CREW, "area": AREA, "name": "Truck 4", "happened": "2025-02-03"}
BOUGHT = {"kind": "instrument_added", "id": METER, "area": AREA, "mark": "G-3", "what": "gas detector"} | {
    "happened": "2025-02-03"
}


def who(*said: dict[str, Any], added: dict[str, Any] = ADDED) -> Person:
    found = person(standing(story(added, *said)))
    assert found is not None
    return found


def ended(role: str, until_on: str, **fields: Any) -> dict[str, Any]:
    said = {"kind": "role_ended", "id": m.new_id(), "subject": WHO, "happened": "2026-03-04", "role": role}
    return said | {"until_on": until_on} | fields


def days(found: Person) -> list[tuple[str, str, str]]:
    return [(role.role, role.from_on, role.until_on) for role in found.roles]


def test_nobody_is_told_of_without_the_entry_that_adds_them() -> None:
    assert (person([]), crew([]), instrument(story(m.calibrated(METER)))) == (None, None, None)


def test_a_person_has_the_roles_of_their_adding_and_those_given_since() -> None:
    row = {"key": "r1", "role": "crew", "area": AREA, "from_on": "2025-01-02"}
    given = m.role_given(WHO, "inspector", area=AREA, until_on="2026-06-30", period_from_on="2025-01-01")
    assert who(given, added=ADDED | {"roles": [row]}).roles == (
        Role(entry=UUID(WHO), key="r1", role="crew", area=UUID(AREA), from_on="2025-01-02", until_on=""),
        Role(
            entry=UUID(given["id"]),
            key="",
            role="inspector",
            area=UUID(AREA),
            from_on="2026-03-02",
            until_on="2026-06-30",
            period_from_on="2025-01-01",
        ),
    )


def test_a_role_may_be_for_the_work_of_one_company_alone() -> None:
    given = [m.role_given(WHO), m.role_given(WHO, company="Weir Works")]
    assert [each.company for each in who(*given, added=ADDED | {"company": "Dale Pipe Co"}).roles] == ["", "Weir Works"]


def test_a_role_ends_where_it_was_given_and_another_goes_on() -> None:
    given = [m.role_given(WHO, "crew", area=AREA), m.role_given(WHO, "crew", area=OTHER), m.role_given(WHO, "officer")]
    assert days(who(*given, ended("crew", "2026-03-31", area=AREA))) == [
        ("crew", "2026-03-02", "2026-03-31"),
        ("crew", "2026-03-02", ""),
        ("officer", "2026-03-02", ""),
    ]
    assert [until for *_, until in days(who(*given, ended("crew", "2026-03-31")))] == ["2026-03-31", "2026-03-31", ""]


def test_an_end_before_the_first_day_leaves_no_role_and_one_after_its_end_makes_it_no_longer() -> None:
    assert days(who(m.role_given(WHO), ended("crew", "2026-03-01"))) == []
    short = m.role_given(WHO, until_on="2026-03-10")
    assert days(who(short, ended("crew", "2026-03-31"))) == [("crew", "2026-03-02", "2026-03-10")]


def test_a_role_given_again_after_an_end_goes_on() -> None:
    again = m.role_given(WHO, happened="2026-04-01", from_on="2026-04-01")
    found = days(who(m.role_given(WHO), ended("crew", "2026-03-31"), again))
    assert found == [("crew", "2026-03-02", "2026-03-31"), ("crew", "2026-04-01", "")]


def test_who_leaves_has_no_role_after_the_last_day() -> None:
    left = {"kind": "person_left", "id": m.new_id(), "subject": WHO, "happened": "2026-03-04", "until_on": "2026-03-06"}
    found = who(m.role_given(WHO), m.role_given(WHO, "officer", from_on="2026-03-09"), left)
    assert (found.left_on, days(found)) == ("2026-03-06", [("crew", "2026-03-02", "2026-03-06")])


def test_somebody_added_in_error_may_do_nothing() -> None:
    row = {"key": "r1", "role": "crew", "from_on": "2025-01-02"}
    found = who(m.role_given(WHO), m.void(WHO), added=ADDED | {"roles": [row]})
    assert (found.void, found.roles) == (True, ())


@pytest.mark.parametrize(
    ("on", "holds"),
    [
        ("2026-01-04", False),
        ("2026-01-05", True),
        ("2026-01-06", True),
        ("2027-01-04", True),
        ("2027-01-05", True),
        ("2027-01-06", False),
    ],
)
def test_a_qualification_holds_from_the_evaluation_to_its_last_day(on: str, holds: bool) -> None:
    (found,) = who(m.qualified(WHO)).qualifications
    assert found.holds(on=on) is holds


@pytest.mark.parametrize(("on", "holds"), [("2026-01-31", True), ("2026-02-01", False), ("2026-02-02", False)])
def test_a_suspended_qualification_no_longer_holds_from_that_day_on(on: str, holds: bool) -> None:
    (found,) = who(m.qualified(WHO), m.unqualified(WHO, task="Install  CLAMP")).qualifications
    assert found.holds(on=on) is holds
    assert (found.ended_on, found.ended_how) == ("2026-02-01", "suspended")


def test_a_later_evaluation_holds_again_and_one_of_another_task_is_not_touched() -> None:
    again = m.qualified(WHO, happened="2026-02-10")
    found = who(m.qualified(WHO), m.qualified(WHO, task="squeeze off"), m.unqualified(WHO), again).qualifications
    assert [(each.task, each.ended_on) for each in found] == [
        ("install clamp", "2026-02-01"),
        ("squeeze off", ""),
        ("install clamp", ""),
    ]
    assert found[-1] == Qualification(
        entry=UUID(again["id"]), task="install clamp", from_on="2026-02-10", until_on="2027-01-05"
    )


def test_a_crew_is_told_by_date() -> None:
    first, second, third = (m.new_id() for _ in range(3))
    made = MADE | {
        "company": "Dale Pipe Co",
        "members": [{"key": "m1", "person": first}, {"key": "m2", "person": second}],
    }
    change = m.crew_changed(CREW, company="Weir Works") | {
        "joined": [{"key": "j1", "person": third}],
        "left": [{"key": "l1", "person": first, "until_on": "2026-01-31"}],
    }
    assert crew(standing(story(made, change))) == Crew(
        id=UUID(CREW),
        area=UUID(AREA),
        name="Truck 5",
        void=False,
        members=(
            Member(person=UUID(first), from_on="2025-02-03", until_on="2026-01-31"),
            Member(person=UUID(second), from_on="2025-02-03", until_on=""),
            Member(person=UUID(third), from_on="2026-02-02", until_on=""),
        ),
        companies=(
            OfCompany(company="Dale Pipe Co", from_on="2025-02-03", until_on="2026-02-01"),
            OfCompany(company="Weir Works", from_on="2026-02-02", until_on=""),
        ),
    )


def test_whoever_left_a_crew_before_leaves_it_once() -> None:
    made = MADE | {"members": [{"key": "m1", "person": WHO, "until_on": "2025-12-31"}, {"key": "m2", "person": OTHER}]}
    left = [{"key": f"l{n}", "person": who, "until_on": "2026-01-31"} for n, who in enumerate((WHO, OTHER))]
    found = crew(standing(story(made, m.crew_changed(CREW) | {"left": left})))
    assert found is not None
    assert [(each.person, each.until_on) for each in found.members] == [
        (UUID(WHO), "2025-12-31"),
        (UUID(OTHER), "2026-01-31"),
    ]


@pytest.mark.parametrize("rows", [("", "2026-02-01", "2026-01-31"), ("2026-01-31", "", "2026-02-01")])
def test_whoever_stands_in_a_crew_twice_is_in_it_as_long_as_any_row_says_in_whichever_order(rows: tuple[str]) -> None:
    ends = [{"key": f"m{n}", "person": WHO} | ({"until_on": until} if until else {}) for n, until in enumerate(rows)]
    for members, until_on in ((ends, ""), (ends[::-1], ""), ([r for r in ends if len(r) == 3], "2026-02-01")):
        found = crew(standing(story(MADE | {"members": members})))
        assert found is not None
        assert found.members == (Member(person=UUID(WHO), from_on="2025-02-03", until_on=until_on),)


@pytest.mark.parametrize("days", [("", "2026-03-31"), ("2026-03-31", ""), ("2026-01-31", "2026-03-31")])
def test_whoever_is_said_to_leave_a_crew_twice_leaves_it_on_the_later_day(days: tuple[str, str]) -> None:
    left = [{"key": f"l{n}", "person": WHO} | ({"until_on": on} if on else {}) for n, on in enumerate(days)]
    made = MADE | {"members": [{"key": "m1", "person": WHO}]}
    found = crew(standing(story(made, m.crew_changed(CREW) | {"left": left})))
    assert found is not None
    assert found.members == (Member(person=UUID(WHO), from_on="2025-02-03", until_on="2026-03-31"),)


def meter(*said: dict[str, Any]) -> Instrument:
    found = instrument(standing(story(BOUGHT, *said)))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("on", "holds"),
    [
        ("2026-01-06", False),
        ("2026-01-07", True),
        ("2026-01-08", True),
        ("2026-04-06", True),
        ("2026-04-07", True),
        ("2026-04-08", False),
    ],
)
def test_a_calibration_holds_to_the_day_on_its_certificate(on: str, holds: bool) -> None:
    assert was_calibrated([meter(m.calibrated(METER))], on=on) is holds


def test_the_last_calibration_before_a_day_is_the_one_that_counts() -> None:
    found = meter(m.calibrated(METER), m.calibrated(METER, happened="2026-02-03", result="out_of_tolerance"))
    assert [was_calibrated([found], on=on) for on in ("2026-02-02", "2026-02-03", "2026-02-04")] == [True, False, False]
    assert was_calibrated([meter()], on="2026-02-03") is False


def test_an_instrument_is_told_with_its_last_check_and_its_end() -> None:
    calibrated = m.calibrated(METER)
    check = {
        "kind": "instrument_checked",
        "id": m.new_id(),
        "subject": METER,
        "happened": "2026-02-03",
        "result": "good",
    }
    retired = {"kind": "instrument_retired", "id": m.new_id(), "subject": METER, "happened": "2026-02-27"}
    assert meter(calibrated, check, retired) == Instrument(
        id=UUID(METER),
        area=AREA,
        mark="G-3",
        what="gas detector",
        retired_on="2026-02-27",
        checked_on="2026-02-03",
        check="good",
        void=False,
        calibrations=(
            Calibration(entry=UUID(calibrated["id"]), on="2026-01-07", result="in_tolerance", next_due_on="2026-04-07"),
        ),
    )
