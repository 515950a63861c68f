"""What a person sees: areas by the memberships of a day."""

from uuid import UUID

import pytest

from repairlog.access import EVERYTHING, NOTHING, Actor, Membership, Scope, scope_of
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


@pytest.mark.parametrize(("role", "company"), [("inspector", ""), ("crew", "Dale Pipe Co")])
def test_a_role_for_a_period_or_for_one_companys_work_shows_no_area_as_a_whole(role: str, company: str) -> None:
    held = Membership(role=role, area=None, from_on="2026-01-01", until_on="2026-12-31", company=company)
    who = Actor(person=UUID(int=1), sure="password", memberships=(held,))
    assert scope_of(who, on="2026-03-05") == Scope()
