"""What a person sees: areas by the memberships of a day."""

from dataclasses import replace
from uuid import UUID

import pytest

from repairlog.access import (
    EVERYTHING,
    NOTHING,
    Actor,
    Membership,
    Part,
    Scope,
    Standing,
    inspects,
    scope_of,
    standing_of,
)
from tests.makers import book as m

ES, HF = UUID(m.new_id()), UUID(m.new_id())


def person(*memberships: Membership) -> Actor:
    return Actor(person=UUID(m.new_id()), sure="password", memberships=memberships)


def held(area: UUID | None, *, from_on: str = "2026-03-01", until_on: str = "2026-03-31") -> Membership:
    return Membership(role="crew", area=area, from_on=from_on, until_on=until_on)


@pytest.mark.parametrize(
    ("on", "seen"),
    [
        ("2026-02-28", NOTHING),
        ("2026-03-01", Scope(areas=frozenset({ES}))),
        ("2026-03-31", Scope(areas=frozenset({ES}))),
        ("2026-04-01", NOTHING),
    ],
)
def test_an_area_is_seen_from_the_first_day_to_the_last(on: str, seen: Scope) -> None:
    assert scope_of(person(held(ES)), on=on) == seen


def test_several_memberships_are_seen_together() -> None:
    assert scope_of(person(held(ES), held(HF)), on="2026-03-05") == Scope(areas=frozenset({ES, HF}))


def test_a_membership_of_every_area_sees_everything() -> None:
    assert scope_of(person(held(None)), on="2026-03-05") == EVERYTHING


def test_an_open_membership_goes_on() -> None:
    assert scope_of(person(held(ES, until_on="")), on="2999-12-31") == Scope(areas=frozenset({ES}))


def test_a_person_without_memberships_sees_nothing() -> None:
    assert scope_of(person(), on="2026-03-05") == NOTHING


@pytest.mark.parametrize(
    ("area", "asked", "covers"), [(ES, ES, True), (ES, HF, False), (ES, None, False), (None, ES, True)]
)
def test_a_role_in_one_area_is_none_in_every_area(area: UUID | None, asked: UUID | None, covers: bool) -> None:
    assert held(area).covers(area=asked, on="2026-03-05") is covers


def inspector(**fields: str) -> Membership:
    days = {"until_on": "2026-03-31", "period_from_on": "2025-01-01", "period_until_on": "2025-12-31"} | fields
    return Membership(role="inspector", area=ES, from_on="2026-03-01", **days)


PERIOD = Scope(parts=frozenset({Part(area=ES, from_on="2025-01-01", until_on="2025-12-31")}))


@pytest.mark.parametrize(
    ("on", "seen"),
    [
        ("2026-02-28", NOTHING),
        ("2026-03-01", PERIOD),
        ("2026-03-30", PERIOD),
        ("2026-03-31", PERIOD),
        ("2026-04-01", NOTHING),
    ],
)
def test_an_inspector_sees_a_period_while_the_role_holds(on: str, seen: Scope) -> None:
    who = person(inspector())
    assert (scope_of(who, on=on), inspects(who, on=on)) == (seen, not seen.sees_nothing)


def test_an_inspector_who_signed_in_before_the_role_began_sees_it_and_is_of_no_company() -> None:
    """Whoever only reads has no sign-in to begin anew."""
    who = replace(person(inspector()), signed_in_on="2026-02-01")
    assert standing_of(who, on="2026-03-05") is None
    assert scope_of(who, on="2026-03-05").companies == frozenset()


@pytest.mark.parametrize("missing", ["until_on", "period_from_on", "period_until_on"])
def test_an_inspector_whose_role_has_no_end_or_no_period_sees_nothing(missing: str) -> None:
    assert scope_of(person(inspector(**{missing: ""})), on="2026-03-05") == NOTHING


def test_an_inspector_of_one_companys_work_sees_it_within_the_period_alone() -> None:
    part = Part(area=ES, company="Dale Pipe Co", from_on="2025-01-01", until_on="2025-12-31")
    assert scope_of(person(inspector(company="Dale Pipe Co")), on="2026-03-05") == Scope(parts=frozenset({part}))
    assert scope_of(person(inspector(company="Dale Pipe Co", period_from_on="")), on="2026-03-05") == NOTHING


def test_nobody_else_is_bounded_to_a_period_nor_is_it_listed_what_they_look_at() -> None:
    who = person(replace(inspector(), role="crew"))
    assert (scope_of(who, on="2026-03-05"), inspects(who, on="2026-03-05")) == (Scope(areas=frozenset({ES})), False)


def test_a_role_for_one_companys_work_shows_that_work_alone() -> None:
    crew = Membership(role="crew", area=ES, from_on="2026-01-01", company="Dale Pipe Co")
    found = scope_of(person(crew, held(HF)), on="2026-03-05")
    assert found == Scope(areas=frozenset({HF}), parts=frozenset({Part(area=ES, company="Dale Pipe Co")}))
    assert (found.some_areas, found.companies, found.sees_nothing) == ({ES, HF}, {"Dale Pipe Co"}, False)


def test_a_part_of_every_area_is_some_of_each() -> None:
    assert Scope(parts=frozenset({Part(area=None, company="Dale Pipe Co")})).some_areas is None


@pytest.mark.parametrize(
    ("memberships", "told"),
    [
        ((), Standing(code="no_role")),
        ((held(ES, from_on="2026-03-06"),), Standing(code="not_begun", on="2026-03-06")),
        ((held(ES, from_on="2026-03-05"),), None),
        ((held(ES, until_on="2026-03-05"),), None),
        ((held(ES, until_on="2026-03-04"),), Standing(code="ended", on="2026-03-04")),
        ((held(ES, until_on="2026-02-28"), held(HF, until_on="2026-03-04")), Standing(code="ended", on="2026-03-04")),
        ((inspector(until_on="2026-03-04"),), Standing(code="ended", on="2026-03-04")),
        ((inspector(until_on="2026-03-05"),), None),
        ((inspector(period_until_on=""),), Standing(code="no_period")),
        ((inspector(until_on=""),), Standing(code="no_period")),
    ],
)
def test_who_sees_nothing_is_told_why(memberships: tuple[Membership, ...], told: Standing | None) -> None:
    assert standing_of(person(*memberships), on="2026-03-05") == told


@pytest.mark.parametrize(
    ("since", "told"),
    [
        ("2026-02-28", Standing(code="sign_in_again", on="2026-03-01")),
        ("2026-03-01", None),
        ("2026-03-02", None),
        ("", None),
    ],
)
def test_who_signed_in_before_their_role_began_is_told_to_sign_in_again(since: str, told: Standing | None) -> None:
    assert standing_of(replace(person(held(ES)), signed_in_on=since), on="2026-03-05") == told


def test_who_signed_in_before_several_roles_is_told_the_day_of_the_first() -> None:
    who = person(held(ES, from_on="2026-03-03"), held(HF, from_on="2026-03-01"))
    assert standing_of(replace(who, signed_in_on="2026-02-28"), on="2026-03-05") == Standing(
        code="sign_in_again", on="2026-03-01"
    )
