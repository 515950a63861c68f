"""Which rulebook a leak answers to, on which days, and how firm what it asks is. The stories are invented.

No source: which text counts on which day is decided by us.
"""

from __future__ import annotations

from uuid import UUID

import pytest

from repairlog.trade.adopted import Adoption, Confirmed, adoption_gaps
from repairlog.trade.area import Area
from repairlog.trade.due.of_leak import Required
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.rests import Rests
from tests.makers import book as m
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.told import story

LEAK = "01a10bef-6200-7000-8000-000000000f01"
AREA = UUID("01a10bef-6200-7000-8000-000000000f02")
BOTH = {each.digest: each for each in RULEBOOKS.offered().values() if each.id.startswith("saltmarsh")}
EARLY, LATE = (UUID(int=number) for number in (1, 2))


def adopted(entry: UUID, digest: str, from_on: str, until_on: str = "") -> Adoption:
    return Adoption(entry=entry, rulebook="any", digest=digest, from_on=from_on, until_on=until_on)


def required(
    *entries: dict[str, object], on: tuple[Adoption, ...], reported: str = "2026-03-03", **of_area: object
) -> tuple[Required, ...]:
    """What the leak with these entries owes in an area that adopted that."""
    words = {"name": "Eastmarsh", "code": "ES", "zone": "America/New_York", "elevation": "", "lel_basis": "5.0"}
    area = Area(id=AREA, settings_version=1, adoptions=on, **words, **of_area)  # type: ignore[arg-type]
    opened = {"kind": "leak_opened", "id": LEAK, "area": str(AREA), "happened": reported, "detected_by": "survey"}
    found = leak(story(opened, *entries), rests=Rests(areas={AREA: area}, rulebooks=BOTH))
    assert found is not None
    return found.required


def asked(*entries: dict[str, object], on: tuple[Adoption, ...], **of_area: object) -> list[tuple[object, ...]]:
    """Of each rulebook that counts: its adoption, its days, and each item's task, day, firmness and settling."""
    return [
        (
            each.adoption.entry,
            each.from_on,
            each.until_on,
            [(item.task, item.due_on.isoformat(), item.firm, item.settled_by) for item in each.owed.items],
        )
        for each in required(*entries, on=on, **of_area)
    ]


GRADED = m.grade(LEAK, happened="2026-03-03")
PRACTICE = [("re_evaluate", "2026-09-03", True, ""), ("repair", "2027-06-03", False, "")]
PROPOSAL = [("repair", "2026-06-03", True, ""), ("re_evaluate", "2026-09-03", True, "")]


def test_where_no_rulebook_was_adopted_nothing_is_owed() -> None:
    assert asked(GRADED, on=()) == []


def test_a_leak_that_is_open_answers_to_each_rulebook_on_its_days_also_to_one_that_is_still_to_come() -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01", "2026-12-31"), adopted(LATE, m.PROPOSAL, "2027-01-01"))
    assert asked(GRADED, on=on) == [
        (EARLY, "", "2026-12-31", PRACTICE),
        (LATE, "2027-01-01", "", PROPOSAL),
    ]


@pytest.mark.parametrize(("told_on", "counts"), [("2026-12-31", 2), ("2027-01-01", 1), ("2027-01-02", 1)])
def test_a_rulebook_that_was_over_before_the_last_day_told_of_counts_no_more(told_on: str, counts: int) -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01", "2026-12-31"), adopted(LATE, m.PROPOSAL, "2027-01-01"))
    found = asked(GRADED, m.visit(LEAK, happened=told_on), on=on)
    assert [each[:3] for each in found][-counts:] == [
        *([(EARLY, "", "2026-12-31")] if counts == 2 else []),
        (LATE, "2027-01-01" if counts == 2 else "", ""),
    ]
    assert len(found) == counts


@pytest.mark.parametrize(
    ("ended_on", "answers_to"),
    [("2026-12-31", [EARLY]), ("2027-01-01", [LATE]), ("2019-12-31", [])],
)
def test_a_leak_that_is_ended_answers_to_what_held_on_that_day(ended_on: str, answers_to: list[UUID]) -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01", "2026-12-31"), adopted(LATE, m.PROPOSAL, "2027-01-01"))
    found = asked(GRADED, m.ending(LEAK, how="customers", happened=ended_on), on=on)
    assert [(each[0], each[1], each[2]) for each in found] == [(entry, "", "") for entry in answers_to]


def test_a_confirmed_rule_gives_a_limit_and_one_that_is_not_confirmed_a_proposal() -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01"),)
    sure = Confirmed(digest=m.PRACTICE, rule="repair-2", on="2026-04-01")
    assert asked(GRADED, on=on)[0][3] == PRACTICE
    assert asked(GRADED, on=on, confirmed=(sure,))[0][3] == [PRACTICE[0], ("repair", "2027-06-03", True, "")]


@pytest.mark.parametrize(("confirmed_on", "firm"), [("2026-04-14", True), ("2026-04-15", True), ("2026-04-16", False)])
def test_what_was_settled_before_a_rule_was_confirmed_stays_proposed(confirmed_on: str, firm: bool) -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01"),)
    sure = Confirmed(digest=m.PRACTICE, rule="repair-2", on=confirmed_on)
    ((*_, items),) = asked(GRADED, m.ending(LEAK, how="customers", happened="2026-04-15"), on=on, confirmed=(sure,))
    assert ("repair", "2027-06-03", firm, "ended") in items


def test_a_rule_confirmed_in_another_text_counts_where_both_say_the_same() -> None:
    """The proposal has another repair of grade 2, and the practice's rule of a temporary repair as it stands."""
    on = (adopted(LATE, m.PROPOSAL, "2020-01-01"),)
    sure = tuple(Confirmed(digest=m.PRACTICE, rule=rule, on="2026-03-01") for rule in ("permanent", "repair-2"))
    temporary = m.attempt(LEAK, lasting="temporary", happened="2026-03-05")
    ((*_, items),) = asked(GRADED, temporary, on=on, confirmed=sure)
    assert ("permanent_repair", "2026-04-04", True, "") in items
    ((*_, alone),) = asked(GRADED, temporary, on=on, confirmed=sure[1:])
    assert ("permanent_repair", "2026-04-04", False, "") in alone


def test_working_days_are_those_of_the_area() -> None:
    """Good Friday and Easter Monday of 2026, 3 and 6 April, are holidays in England and Wales, not in the United
    States. Source: the calendar, and what is a bank holiday there: common knowledge, from memory."""
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01"),)
    first = m.grade(LEAK, grade="1", happened="2026-04-02")
    found = [required(first, on=on, reported="2026-04-02", calendar=each) for each in ("", "GB-ENG")]
    days = [item.due_on.isoformat() for (each,) in found for item in each.owed.items if item.task == "tell_owner"]
    assert days == ["2026-04-06", "2026-04-08"]


def test_an_interval_that_cannot_be_counted_holds_up_nothing_else() -> None:
    """A calendar that this release does not know any more, as a library may drop one."""
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01"),)
    (found,) = required(m.grade(LEAK, grade="1", happened="2026-03-03"), on=on, calendar="XX")
    assert [(each.why, each.rule) for each in found.owed.missing] == [("not_countable", "tell-owner")]
    assert [each.rule for each in found.owed.items] == ["act-1", "tell-fire-department"]


def test_an_adopted_proposal_is_raised_and_nothing_else_is() -> None:
    said = m.adopted(str(AREA), rulebook="saltmarsh-proposal", digest=m.PROPOSAL, although_proposed="yes")
    (entry,) = story(said)
    gap = Gap(code="proposed_rulebook_adopted", entry=entry.id, facts={"named": "saltmarsh-proposal"})
    assert adoption_gaps([entry, *story(m.adopted(str(AREA)))]) == [gap]


def test_a_rule_confirmed_in_another_text_does_not_count_where_this_one_says_something_else() -> None:
    on = (adopted(EARLY, m.PRACTICE, "2020-01-01"),)
    of_the_other = Confirmed(digest=m.PROPOSAL, rule="repair-2", on="2026-03-01")
    assert asked(GRADED, on=on, confirmed=(of_the_other,))[0][3] == PRACTICE


def test_a_rule_confirmed_in_another_text_that_this_one_does_not_have_changes_nothing() -> None:
    on = (adopted(LATE, m.PROPOSAL, "2020-01-01"),)
    of_the_other = Confirmed(digest=m.PRACTICE, rule="act-1", on="2026-03-01")
    first = m.grade(LEAK, grade="1", happened="2026-03-03 09:00")
    assert asked(first, on=on, confirmed=(of_the_other,)) == asked(first, on=on)


@pytest.mark.parametrize("first", [m.PRACTICE, m.PROPOSAL])
def test_of_a_rule_confirmed_in_two_texts_the_first_day_counts(first: str) -> None:
    on = (adopted(LATE, m.PROPOSAL, "2020-01-01"),)
    days = {m.PRACTICE: "2026-04-20", m.PROPOSAL: "2026-04-20"} | {first: "2026-04-14"}
    sure = tuple(Confirmed(digest=digest, rule="permanent", on=day) for digest, day in days.items())
    temporary = m.attempt(LEAK, lasting="temporary", happened="2026-03-05")
    ended = m.ending(LEAK, how="customers", happened="2026-04-15")
    ((*_, items),) = asked(GRADED, temporary, ended, on=on, confirmed=sure)
    assert [firm for task, _day, firm, _by in items if task == "permanent_repair"] == [True]
