"""How soon something is due, in words: before, on and after its last day; proposed days, windows, hours, targets."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from repairlog.words.due_items import asked_by, how_soon, in_time, target

NEW_YORK = ZoneInfo("America/New_York")
NOON = datetime(2026, 3, 5, 17, tzinfo=UTC)
"""12:00 in New York."""


@dataclass(frozen=True)
class Owed:
    task: str = "repair"
    firm: bool = True
    due_on: date = date(2026, 3, 5)
    due_at: datetime | None = None
    not_before: date | None = None
    target_on: date | None = None
    settled_on: date | None = None
    settled_by: str = ""
    clause: str = "4.2"
    mark: str = "memory"


def said(**owed: object) -> str:
    return how_soon(Owed(**owed), on=date(2026, 3, 5), at=NOON, zone=NEW_YORK)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("due_on", "words"),
    [
        ("2026-02-24", "9 days late"),
        ("2026-03-04", "1 day late"),
        ("2026-03-05", "due today"),
        ("2026-03-06", "due in 1 day"),
        ("2026-03-17", "due in 12 days"),
    ],
)
def test_days_are_counted_to_the_last_day_which_is_in_time(due_on: str, words: str) -> None:
    assert said(due_on=date.fromisoformat(due_on)) == words


def test_a_proposed_day_is_never_late() -> None:
    assert said(due_on=date(2025, 12, 13), firm=False) == "proposed 13 Dec 2025, not confirmed"


@pytest.mark.parametrize(
    ("first", "words"), [(6, "not before 6 Mar 2026"), (5, "due in 15 days"), (4, "due in 15 days")]
)
def test_before_its_window_it_is_not_to_be_done_yet(first: int, words: str) -> None:
    assert said(not_before=date(2026, 3, first), due_on=date(2026, 3, 20)) == words


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (122, "due at 14:02, in 2 h 2 min"),
        (0, "due at 12:00, in 0 h 0 min"),
        (-1, "due at 11:59, 1 hour late"),
        (-61, "due at 10:59, up to 2 hours late"),
    ],
)
def test_hours_are_told_by_the_clock_of_the_zone(minutes: int, words: str) -> None:
    assert said(due_at=NOON + timedelta(minutes=minutes)) == words


@pytest.mark.parametrize(("day", "words"), [(4, "target 4 Mar 2026, passed"), (5, "target 5 Mar 2026")])
def test_a_target_passes_and_is_never_late(day: int, words: str) -> None:
    assert target(Owed(target_on=date(2026, 3, day)), on=date(2026, 3, 5)) == words


def test_what_asks_for_it_says_how_far_it_is_known() -> None:
    assert asked_by(Owed()) == "4.2, confirmed by the operator"
    assert asked_by(Owed(firm=False)) == "4.2, from memory, not from the text"
    assert asked_by(Owed(mark="text_checked")) == "4.2, text checked"
    assert asked_by(Owed(clause="")) == ""


@pytest.mark.parametrize(
    ("on", "firm", "by", "so"),
    [
        (5, True, "repaired", True),
        (6, True, "repaired", False),
        (6, False, "repaired", True),
        (6, True, "graded_anew", True),
        (6, True, "joined", True),
    ],
)
def test_only_what_was_done_after_a_limit_was_not_in_time(on: int, firm: bool, by: str, so: bool) -> None:
    assert in_time(Owed(settled_on=date(2026, 3, on), firm=firm, settled_by=by)) is so
