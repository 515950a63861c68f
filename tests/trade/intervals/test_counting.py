"""Intervals counted from a day or a moment, on both sides of every edge.

Sources: months by python-dateutil, an independent library; hours elapsed and days of the calendar by the zone's own
rules. What the federal texts mean is held in tests/published/test_intervals.py.
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from repairlog.trade.intervals import (
    Around,
    Counted,
    count,
    count_from,
    months_after,
    read_interval,
    shorter,
    working_days_after,
)

YEARLY = "each calendar year, not exceeding 15 months"
NEW_YORK = ZoneInfo("America/New_York")
DAYS = st.dates(min_value=date(1900, 1, 1), max_value=date(2500, 12, 31))


def due(rule: str, last: str, **around: object) -> tuple[str, str]:
    """The last day in time, and the bound that decided."""
    found = count(read_interval(rule), date.fromisoformat(last), around=Around(**around))
    return found.due_on.isoformat(), found.governed_by


@pytest.mark.parametrize(
    ("last", "expected"),
    [
        # 15 months lead to 30 December; the day after they would lead past the end of the next calendar year.
        ("2023-09-29", ("2024-12-29", "15 months")),
        ("2023-09-30", ("2024-12-30", "15 months")),
        ("2023-10-01", ("2024-12-31", "calendar year")),
        ("2023-12-31", ("2024-12-31", "calendar year")),
        ("2024-01-01", ("2025-04-01", "15 months")),
    ],
)
def test_15_months_govern_until_the_end_of_september_and_the_calendar_year_from_october(
    last: str, expected: tuple[str, str]
) -> None:
    assert due(YEARLY, last) == expected


@pytest.mark.parametrize(
    ("rule", "last", "expected"),
    [
        ("5 calendar years, not exceeding 63 months", "2020-09-30", ("2025-12-30", "63 months")),
        ("5 calendar years, not exceeding 63 months", "2020-10-01", ("2025-12-31", "calendar year")),
        ("6 months", "2023-08-30", ("2024-02-29", "6 months")),
        ("6 months", "2023-08-31", ("2024-02-29", "6 months")),
        ("6 months", "2023-09-01", ("2024-03-01", "6 months")),
        ("12 months", "2024-02-29", ("2025-02-28", "12 months")),
        ("4.5 months", "2024-10-31", ("2025-03-15", "4.5 months")),
        ("2 weeks", "2024-02-15", ("2024-02-29", "2 weeks")),
        ("at once", "2024-02-15", ("2024-02-15", "at once")),
        # A day on which both end is the length's: here 31 December by 12 months and by the calendar year.
        ("each calendar year, not exceeding 12 months", "2023-12-31", ("2024-12-31", "12 months")),
    ],
)
def test_a_due_day_and_what_governed_it(rule: str, last: str, expected: tuple[str, str]) -> None:
    assert due(rule, last) == expected


def test_months_are_counted_from_the_anchor_and_never_step_by_step() -> None:
    start = date(2023, 1, 31)
    assert [months_after(start, n).isoformat() for n in (1, 2, 3)] == ["2023-02-28", "2023-03-31", "2023-04-30"]


@given(DAYS, st.integers(min_value=0, max_value=1200))
def test_months_are_those_of_the_library_dateutil(day: date, months: int) -> None:
    assert months_after(day, months) == day + relativedelta(months=months)


@given(DAYS, st.integers(min_value=1, max_value=120), st.integers(min_value=0, max_value=40))
def test_a_later_anchor_is_never_due_earlier(day: date, months: int, later: int) -> None:
    rule = read_interval(f"each calendar year, not exceeding {months} months")
    assert count(rule, day).due_on <= count(rule, day + timedelta(days=later)).due_on


@given(DAYS, st.integers(min_value=1, max_value=60), st.integers(min_value=1, max_value=5))
def test_of_a_pair_the_earlier_bound_decides_and_is_named(day: date, months: int, years: int) -> None:
    found = count(read_interval(f"{years} calendar years, not exceeding {months} months"), day)
    length, year = months_after(day, months), date(day.year + years, 12, 31)
    named = f"{months} month" + "s" * (months > 1) if length <= year else "calendar year"
    assert (found.due_on, found.governed_by) == (min(length, year), named)


@pytest.mark.parametrize(
    ("done", "expected"),
    [
        (None, ("2026-03-07", "4.5 months")),
        (3, ("2025-12-31", "calendar year")),  # the fourth of the year is due by its end
        (4, ("2026-03-07", "4.5 months")),
    ],
)
def test_of_several_times_a_year_the_year_s_end_decides_while_some_are_left(
    done: int | None, expected: tuple[str, str]
) -> None:
    assert due("4 times each calendar year, not exceeding 4.5 months", "2025-10-20", done_this_year=done) == expected


@pytest.mark.parametrize(
    ("next_round_on", "expected"),
    [
        (date(2024, 4, 9), ("2024-04-09", "next round")),
        (date(2024, 4, 10), ("2024-04-10", "15 months")),
        (date(2024, 4, 11), ("2024-04-10", "15 months")),
        (None, ("2024-04-10", "15 months")),
    ],
)
def test_the_next_scheduled_round_decides_where_it_comes_first(
    next_round_on: date | None, expected: tuple[str, str]
) -> None:
    rule = "15 months or the next scheduled survey, whichever is first"
    assert due(rule, "2023-01-10", next_round_on=next_round_on) == expected


def test_a_window_has_a_first_and_a_last_day() -> None:
    assert count(read_interval("not before 14 days, not after 30 days"), date(2025, 1, 1)) == Counted(
        due_on=date(2025, 1, 31), not_before=date(2025, 1, 15), governed_by="30 days"
    )


@pytest.mark.parametrize(
    ("typed", "hours", "expected"),
    [
        # Clocks went back on 2 November 2025 and forward on 9 March 2025: the hours elapse all the same.
        ("2025-11-01T01:30-04:00", 24, "2025-11-02T01:30-04:00"),
        ("2025-11-02T01:30-04:00", 24, "2025-11-03T00:30-05:00"),
        ("2025-11-02T01:30-05:00", 24, "2025-11-03T01:30-05:00"),
        ("2025-03-08T12:00-05:00", 24, "2025-03-09T13:00-04:00"),
        ("2025-03-08T12:00-05:00", 12, "2025-03-09T00:00-05:00"),
    ],
)
def test_hours_run_on_while_clocks_are_changed(typed: str, hours: int, expected: str) -> None:
    found = count_from(read_interval(f"{hours} hours"), datetime.fromisoformat(typed), zone=NEW_YORK)
    at = datetime.fromisoformat(expected)
    name = f"{hours} hours"
    assert found == Counted(due_on=at.date(), due_at=at.astimezone(UTC), governed_by=name)


def test_a_day_is_the_legal_day_of_the_zone_and_not_that_of_utc() -> None:
    late_at_night = datetime.fromisoformat("2025-01-01T04:30+00:00")
    assert count_from(read_interval("6 months"), late_at_night, zone=NEW_YORK).due_on == date(2025, 6, 30)


def test_of_hours_and_days_together_what_ends_first_decides() -> None:
    at = datetime(2025, 7, 3, 17, tzinfo=UTC)
    both = [count_from(read_interval(rule), at, zone=UTC) for rule in ("48 hours or 1 day", "24 hours or 3 days")]
    assert [(each.due_on.day, each.governed_by) for each in both] == [(4, "1 day"), (4, "24 hours")]


def test_hours_cannot_be_counted_from_a_day_alone() -> None:
    with pytest.raises(ValueError, match="can be counted from a day"):
        count(read_interval("24 hours"), date(2025, 1, 1))


def test_what_ends_past_the_calendar_is_said_and_not_wrapped() -> None:
    with pytest.raises(OverflowError):
        count(read_interval("6 months"), date(9999, 8, 1))


@pytest.mark.parametrize(
    ("left", "new", "ends"),
    [
        (("15 months", "2024-01-10"), ("6 months", "2024-10-09"), "2025-04-09"),
        (("15 months", "2024-01-10"), ("6 months", "2024-10-10"), "2025-04-10"),
        (("15 months", "2024-01-10"), ("6 months", "2024-10-11"), "2025-04-10"),
    ],
)
def test_after_an_upgrade_the_shorter_of_what_was_left_and_the_new_time_counts(
    left: tuple[str, str], new: tuple[str, str], ends: str
) -> None:
    old, fresh = (count(read_interval(rule), date.fromisoformat(on)) for rule, on in (left, new))
    assert shorter(old, fresh).due_on.isoformat() == ends
    assert shorter(old, old) is old


def test_a_moment_ends_before_the_rest_of_its_day() -> None:
    day = Counted(due_on=date(2025, 1, 2), governed_by="1 day")
    moment = Counted(due_on=date(2025, 1, 2), due_at=datetime(2025, 1, 2, 9, tzinfo=UTC), governed_by="12 hours")
    assert (shorter(day, moment), shorter(moment, day)) == (moment, moment)


@pytest.mark.parametrize(
    ("day", "calendar", "expected"),
    [
        ("2025-11-26", "US", "2025-11-28"),  # the day after Thanksgiving is no federal holiday
        ("2025-12-24", "GB-ENG", "2025-12-29"),  # Christmas Day, Boxing Day and a weekend
        ("2021-12-30", "US", "2022-01-03"),  # New Year's Day 2022, a Saturday, was observed on the Friday before
    ],
)
def test_the_next_working_day_is_that_of_the_named_calendar(day: str, calendar: str, expected: str) -> None:
    assert working_days_after(date.fromisoformat(day), amount=1, calendar=calendar).isoformat() == expected


@pytest.mark.parametrize("calendar", ["", "us", "US-", "XX", "US-London"])
def test_a_calendar_that_is_not_known_is_no_calendar_without_holidays(calendar: str) -> None:
    with pytest.raises(KeyError):
        working_days_after(date(2025, 1, 6), amount=1, calendar=calendar)


def test_of_two_that_end_at_once_what_was_left_decides() -> None:
    left = Counted(due_on=date(2025, 1, 2), governed_by="15 months")
    assert shorter(left, Counted(due_on=date(2025, 1, 2), governed_by="6 months")) is left


def test_hours_that_end_on_the_last_day_of_another_bound_decide_by_their_moment() -> None:
    both = read_interval("24 hours or 1 day, whichever first")
    counted = count_from(both, datetime(2025, 1, 1, 9, tzinfo=UTC), zone=ZoneInfo("UTC"))
    assert (counted.due_at, counted.governed_by) == (datetime(2025, 1, 2, 9, tzinfo=UTC), "24 hours")
