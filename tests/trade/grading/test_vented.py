"""Before a grade is lowered after venting a rulebook may ask for a wait, and for another reading after it.

No figure here is anybody's: no text that was read gives one, so there is no source. Hours elapse
across clock changes, days end with the day.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from repairlog.entries.entry import Standing
from repairlog.trade.grading import asked_after_venting, venting_of, waited
from repairlog.trade.intervals import Around
from repairlog.trade.rulebook import Cited, RuleGap, VentingWait
from tests.makers import book as m
from tests.makers.rulebooks import FIRM, RULEBOOK
from tests.makers.told import told

ZONE = ZoneInfo("UTC")
LEAK = m.new_id()


def visit(happened: str, *, started: str = "", stopped: str = "", read: bool = True) -> Standing:
    """A visit with a reading or none, at which somebody said when venting started or stopped; UTC throughout."""
    said: dict[str, Any] = m.visit(LEAK, happened=happened) if read else m.visit(LEAK, happened=happened, readings=[])
    understood = {}
    for name, text in (("venting_started", started), ("venting_stopped", stopped)):
        if text:
            understood[f"{name}_on"] = text[:10]
            understood |= {f"{name}_at": f"{text[:10]}T{text[11:]}:00.000Z"} if len(text) > 10 else {}
    return told(0, said, understood=understood)


def lacks(wait: str, *visits: Standing, calendar: str = "US") -> str | None:
    venting = venting_of(visits, zone=ZONE)
    rule = VentingWait(id="w", wait=wait, cited=FIRM)
    return waited(rule, venting, around=Around(calendar=calendar)).lacks if venting else None


def test_where_nobody_vented_nothing_is_asked() -> None:
    assert venting_of([visit("2026-03-03 08:00")], zone=ZONE) is None


@pytest.mark.parametrize(
    ("read", "expected"),
    [("2026-03-04 08:59", "wait"), ("2026-03-04 09:00", ""), ("2026-03-04 09:01", "")],
)
def test_hours_elapse_from_the_end_of_venting_to_the_reading(read: str, expected: str) -> None:
    assert lacks("24 hours", visit("2026-03-03 08:00", stopped="2026-03-03 09:00"), visit(read)) == expected


@pytest.mark.parametrize(("read", "expected"), [("2026-03-04", "wait"), ("2026-03-05", ""), ("2026-03-06", "")])
def test_days_end_with_the_day(read: str, expected: str) -> None:
    first = visit("2026-03-03 08:00", stopped="2026-03-03 22:00")
    assert lacks("2 days", first, visit(f"{read} 00:10")) == expected


def test_working_days_pass_over_a_weekend() -> None:
    """6 March 2026 is a Friday."""
    first = visit("2026-03-06 08:00", stopped="2026-03-06 09:00")
    assert [lacks("1 working day", first, visit(f"2026-03-0{day} 09:00")) for day in (8, 9)] == ["wait", ""]


def test_a_reading_before_venting_stopped_is_none_after_it() -> None:
    assert lacks("24 hours", visit("2026-03-03 08:00", stopped="2026-03-03 09:00")) == "reading"
    assert lacks("24 hours", visit("2026-03-03 08:00", stopped="2026-03-03 08:00")) == "wait"


def test_a_look_without_a_reading_is_no_second_reading() -> None:
    first = visit("2026-03-03 08:00", stopped="2026-03-03 09:00")
    assert lacks("24 hours", first, visit("2026-03-05 09:00", read=False)) == "reading"


@pytest.mark.parametrize(
    ("started", "stopped", "expected"),
    [
        ("2026-03-03 08:10", "", "stop"),
        ("2026-03-03 08:10", "2026-03-03 08:09", "stop"),
        ("2026-03-03 08:10", "2026-03-03 08:10", ""),
        ("2026-03-03 08:10", "2026-03-03", ""),
        ("2026-03-04", "2026-03-03", "stop"),
    ],
)
def test_venting_that_started_after_it_last_stopped_still_goes_on(started: str, stopped: str, expected: str) -> None:
    first = visit("2026-03-03 08:00", started=started, stopped=stopped)
    assert lacks("24 hours", first, visit("2026-03-09 09:00")) == expected


@pytest.mark.parametrize(
    ("stopped", "read", "expected"),
    [
        ("2026-03-03", "2026-03-03 23:00", "wait"),  # within a day of the first minute of the 3rd, whatever the hour
        ("2026-03-03", "2026-03-04 00:00", ""),  # it may have stopped at the day's first minute
        ("2026-03-03 09:00", "2026-03-04", ""),  # the reading may have been the day's last thing
        ("2026-03-03 09:00", "2026-03-03", "wait"),
    ],
)
def test_where_only_a_day_is_known_the_hours_that_suit_best_are_taken(stopped: str, read: str, expected: str) -> None:
    assert lacks("24 hours", visit("2026-03-03 08:00", stopped=stopped, read=False), visit(read)) == expected


@pytest.mark.parametrize("wait", ["next scheduled round", "1 working day"])
def test_a_wait_that_cannot_be_counted_accuses_nobody(wait: str) -> None:
    visits = (visit("2026-03-03 08:00", stopped="2026-03-03 09:00"), visit("2026-03-03 10:00"))
    assert lacks(wait, *visits, calendar="nowhere") == ""


def test_the_rule_of_the_grade_that_stands_and_of_its_days_is_taken_else_what_is_left_open() -> None:
    later = Cited(clause="1", source="invented", mark="text_checked", checked=date(2026, 1, 1), first=date(2026, 3, 4))
    rule = VentingWait(id="w", wait="24 hours", grades=("1",), cited=later)
    gap = RuleGap(id="g", fill_in="how long to wait", instead_of="venting_wait", cited=FIRM)
    other = RuleGap(id="h", fill_in="how often to look", cited=FIRM)
    book = replace(RULEBOOK, venting_waits=(rule,), gaps=(other, gap))
    found = [asked_after_venting(book, grade=code, on=on) for code, on in (("1", "2026-03-04"), ("2", "2026-03-04"))]
    assert [(each.rule, each.gap) for each in found] == [(rule, None), (None, gap)]
    assert asked_after_venting(book, grade="1", on="2026-03-03").rule is None
