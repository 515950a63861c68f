"""How a covered task stands on a day: the day before, the day, the day after.

Source: 49 CFR 192.805 and 192.807 (a), each task with the dates of its qualification. Both days counted in: common
practice, no source.
"""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.trade.person import Qualification
from repairlog.trade.qualified_on import tasks_on


def evaluation(number: int = 1, **fields: Any) -> Qualification:
    said = {"task": "squeeze off", "from_on": "2026-01-05", "until_on": "2026-06-30"} | fields
    return Qualification(entry=UUID(int=number), **said)


def standing(*of: Qualification, on: str, soon_until: str = "") -> list[tuple[str, str, int]]:
    found = tasks_on(of, on=on, soon_until=soon_until or on)
    return [(each.standing, each.until_on, each.entry.int) for each in found]


@pytest.mark.parametrize(
    ("on", "stands"),
    [
        ("2026-01-04", "not_yet"),
        ("2026-01-05", "valid"),
        ("2026-06-29", "valid"),
        ("2026-06-30", "ends_soon"),
        ("2026-07-01", "lapsed"),
    ],
)
def test_an_evaluation_holds_from_its_day_to_its_last_day_both_counted_in(on: str, stands: str) -> None:
    assert standing(evaluation(), on=on) == [(stands, "2026-06-30", 1)]


@pytest.mark.parametrize(("soon", "stands"), [("2026-06-29", "valid"), ("2026-06-30", "ends_soon")])
def test_what_ends_until_the_day_that_is_asked_for_ends_soon(soon: str, stands: str) -> None:
    assert standing(evaluation(), on="2026-06-01", soon_until=soon) == [(stands, "2026-06-30", 1)]


def test_one_without_a_last_day_never_ends_soon() -> None:
    assert standing(evaluation(until_on=""), on="2026-06-30", soon_until="9999-12-31") == [("valid", "", 1)]


@pytest.mark.parametrize(("on", "stands"), [("2026-03-01", "valid"), ("2026-03-02", "suspended")])
def test_one_that_is_ended_does_not_hold_on_the_day_of_its_end(on: str, stands: str) -> None:
    ended = evaluation(ended_on="2026-03-02", ended_how="suspended")
    found = standing(ended, on=on)
    assert found == [(stands, "2026-06-30" if stands == "valid" else "2026-03-02", 1)]


def test_an_end_that_came_after_the_last_day_changes_nothing() -> None:
    late = evaluation(ended_on="2026-07-10", ended_how="withdrawn")
    assert standing(late, on="2026-08-01") == [("lapsed", "2026-06-30", 1)]


def test_a_later_evaluation_for_the_same_task_decides_however_it_is_written() -> None:
    again = evaluation(2, task="Squeeze  OFF", from_on="2026-06-01", until_on="2027-06-01")
    assert standing(evaluation(), again, on="2026-07-01") == [("valid", "2027-06-01", 2)]
    assert standing(evaluation(), again, on="2027-06-02") == [("lapsed", "2027-06-01", 2)]


def test_tasks_stand_by_name() -> None:
    found = standing(evaluation(task="weld"), evaluation(2, task="Join PE"), on="2026-02-01")
    assert [number for _stands, _until, number in found] == [2, 1]
