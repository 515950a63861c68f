"""A rulebook on a day, and its rules by kind and by id. The texts are invented, so they have no source."""

from datetime import date, timedelta

import pytest

from repairlog.trade.rulebook import KINDS, Cited, Due, Grade, Rulebook, in_force, in_force_on, rule_named, rules

DAY = date(2022, 1, 1)


def cited(*, mark="text_checked", first=None, last=None) -> Cited:
    return Cited(clause="1", source="invented", mark=mark, checked=date(2026, 11, 25), first=first, last=last)


def book(*dues: Due) -> Rulebook:
    grade = Grade(id="grade-1", code="1", rank=1, meaning="a hazard now", cited=cited())
    return Rulebook(
        id="x", title="X", authority="invented", status="in_force", digest="0" * 64, grades=(grade,), dues=dues
    )


def due(id: str, **days) -> Due:
    return Due(id=id, task="repair", counted_from="found", until="repaired", within="30 days", cited=cited(**days))


@pytest.mark.parametrize(("days", "held"), [(-1, False), (0, True), (1, True)])
def test_a_rule_is_in_force_from_its_first_day(days, held):
    assert in_force_on(cited(first=DAY), DAY + timedelta(days=days)) is held


@pytest.mark.parametrize(("days", "held"), [(-1, True), (0, True), (1, False)])
def test_a_rule_is_in_force_up_to_its_last_day(days, held):
    assert in_force_on(cited(last=DAY), DAY + timedelta(days=days)) is held


def test_a_first_day_that_is_not_known_keeps_no_rule_out():
    assert in_force_on(cited(), date(1900, 1, 1))


def test_on_a_day_a_rulebook_has_the_rules_of_that_day_alone():
    old, new = due("repair-old", last=DAY), due("repair-new", first=DAY + timedelta(days=1))
    assert in_force(book(old, new), on=DAY) == book(old)
    assert in_force(book(old, new), on=DAY + timedelta(days=1)) == book(new)


def test_every_rule_is_told_with_its_kind_and_found_by_its_id():
    rule = due("repair-1")
    assert [(kind, each.id) for kind, each in rules(book(rule))] == [("grade", "grade-1"), ("due", "repair-1")]
    assert rule_named(book(rule), "repair-1") == rule
    assert rule_named(book(rule), "repair-2") is None


def test_every_kind_of_rule_has_its_place_in_a_rulebook():
    held = {
        name for name, of in Rulebook.__annotations__.items() if of.startswith("tuple[") and of != "tuple[str, ...]"
    }
    assert held - {"dropped"} == set(KINDS.values())


@pytest.mark.parametrize(
    ("mark", "firm"), [("text_checked", True), ("restated", False), ("memory", False), ("common_practice", False)]
)
def test_only_a_rule_whose_text_was_read_is_firm_by_itself(mark, firm):
    assert cited(mark=mark).firm is firm
