"""A grade lowered after venting without the wait or the second reading of the adopted rulebook is raised.

No source: no text that was read gives the wait; the rulebook and its hours are invented.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.adopted import Confirmed
from repairlog.trade.area import Area
from repairlog.trade.gap import Gap
from repairlog.trade.leak import leak
from repairlog.trade.rests import rests_of
from repairlog.trade.rulebook import VentingWait
from tests.makers import book as m
from tests.makers.rulebooks import FIRM, PROPOSED, RULEBOOK
from tests.makers.told import told
from tests.trade.test_graded import HERE, LEAK, OPENED

RULE = VentingWait(id="wait", wait="24 hours", grades=("1",), cited=FIRM)
VENTING = {"venting_started_on": "2026-03-03", "venting_stopped_on": "2026-03-03"}
STOPPED = VENTING | {"venting_stopped_at": "2026-03-03T10:00:00.000Z"}
ASKS = {"before": "1", "grade": "2", "wait": "24 hours", "clause": "1.1"}


def raised(
    *, vented: dict[str, str], read: str = "", grade: str = "2", area: Area = HERE, rule: VentingWait = RULE, **by: Any
) -> list[Gap]:
    """Grade 1 on the third, vented; read again at that time, and graded on the sixth."""
    first = m.visit(LEAK, happened="2026-03-03 08:00")
    story: list[tuple[dict[str, Any], dict[str, str]]] = [(OPENED, {}), (first, vented)]
    story.append((m.grade(LEAK, grade="1", happened="2026-03-03 08:30"), {}))
    if read:
        story.append((m.visit(LEAK, happened=read), {}))
    lowered = m.grade(LEAK, id=str(LOWERED), grade=grade, happened="2026-03-06 09:00")
    story.append((lowered, {}))
    if "outcome" in by:
        story.append((m.downgrade(LEAK, lowered["id"], outcome=by["outcome"]), {}))
    entries = [
        told(index, said, understood=made, by={"sure": by.get("sure", "password")})
        for index, (said, made) in enumerate(story)
    ]
    rests = rests_of([area])
    rests.rulebooks[RULEBOOK.digest] = replace(RULEBOOK, venting_waits=(rule,))
    found = leak(standing(entries), rests=rests)
    assert found is not None
    return [each for each in found.gaps if each.code.startswith("lowered_")]


LOWERED = UUID(m.new_id())


@pytest.mark.parametrize(
    ("vented", "read", "code", "facts"),
    [
        ({"venting_started_on": "2026-03-03"}, "2026-03-05 10:00", "lowered_while_venting", {}),
        (STOPPED, "", "lowered_without_second_reading", {"stopped_on": "2026-03-03"}),
        (
            STOPPED,
            "2026-03-04 09:59",
            "lowered_before_wait_was_over",
            {"stopped_on": "2026-03-03", "read_on": "2026-03-04"},
        ),
    ],
)
def test_what_is_lacking_is_raised_with_the_rule_that_asks_for_it(
    vented: dict[str, str], read: str, code: str, facts: dict[str, str]
) -> None:
    assert raised(vented=vented, read=read) == [Gap(code=code, entry=LOWERED, facts=ASKS | facts)]


def test_nothing_is_raised_where_the_wait_was_kept_nobody_vented_or_the_grade_was_not_lowered() -> None:
    kept = raised(vented=STOPPED, read="2026-03-04 10:00")
    assert [kept, raised(vented={}), raised(vented=STOPPED, grade="1")] == [[], [], []]


def test_a_rule_of_other_grades_or_an_area_without_a_rulebook_asks_nothing() -> None:
    assert raised(vented=STOPPED, rule=replace(RULE, grades=("2",))) == []
    assert raised(vented=STOPPED, area=replace(HERE, adoptions=())) == []


@pytest.mark.parametrize(("outcome", "count"), [("approved", 0), ("not_approved", 1)])
def test_a_supervisor_who_approves_it_settles_it(outcome: str, count: int) -> None:
    assert len(raised(vented=STOPPED, outcome=outcome)) == count


def test_what_an_old_list_tells_is_left_alone() -> None:
    assert raised(vented=STOPPED, sure="import") == []


@pytest.mark.parametrize(("confirmed_on", "count"), [("", 0), ("2026-03-06", 1), ("2026-03-07", 0)])
def test_a_rule_whose_text_was_not_read_accuses_nobody_before_it_is_confirmed(confirmed_on: str, count: int) -> None:
    confirmed = (Confirmed(digest=RULEBOOK.digest, rule="wait", on=confirmed_on),) if confirmed_on else ()
    area = replace(HERE, confirmed=confirmed)
    assert len(raised(vented=STOPPED, area=area, rule=replace(RULE, cited=PROPOSED))) == count
