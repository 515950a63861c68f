"""Days of the demo: so long ago as seen from its own moment, or fixed; never in the hours when clocks may change."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from repairlog.cli.demo.days import DayUnclear, Moment, moment_told

NOW = datetime(2026, 11, 20, 3, 30, 45, tzinfo=UTC)  # still the 19th in both zones
EAST, MOUNTAIN = "America/New_York", "America/Denver"


def moment(*numbers):
    return datetime(*numbers, tzinfo=UTC)


def told(text, *, zone=EAST, now=NOW, same_day=None):
    return moment_told(text, zone=zone, now=now, same_day=same_day)


@pytest.mark.parametrize(
    ("text", "zone", "expected"),
    [
        ("1 day ago 07:52", EAST, ("2026-11-18 07:52", moment(2026, 11, 18, 12, 52), date(2026, 11, 18))),
        ("20 days ago 07:52", EAST, ("2026-10-30 07:52", moment(2026, 10, 30, 11, 52), date(2026, 10, 30))),
        ("20 days ago 07:52", MOUNTAIN, ("2026-10-30 07:52", moment(2026, 10, 30, 13, 52), date(2026, 10, 30))),
        ("12 days ago", EAST, ("2026-11-07", moment(2026, 11, 7, 22), date(2026, 11, 7))),
        ("30 days ahead", EAST, ("2026-12-19", moment(2026, 12, 19, 22), date(2026, 12, 19))),
        ("40 minutes ago", EAST, ("2026-11-19 21:50", moment(2026, 11, 20, 2, 50), date(2026, 11, 19))),
        ("5 hours ago", MOUNTAIN, ("2026-11-19 15:30", moment(2026, 11, 19, 22, 30), date(2026, 11, 19))),
        ("2026-10-05 07:52", EAST, ("2026-10-05 07:52", moment(2026, 10, 5, 11, 52), date(2026, 10, 5))),
        ("2026-10-05", EAST, ("2026-10-05", moment(2026, 10, 5, 21), date(2026, 10, 5))),
    ],
)
def test_a_moment_is_read_as_it_is_told(text, zone, expected):
    typed, at, on = expected
    assert told(text, zone=zone) == Moment(typed=typed, at=at, on=on)


def test_a_mere_time_is_of_the_save_s_own_day():
    assert told("09:05", same_day=date(2026, 10, 5)).typed == "2026-10-05 09:05"


@pytest.mark.parametrize(
    "text",
    ["12 day before", "09:05", "2026-02-30", "12 days ago 25:00", "12 days ago 7:52", "", None, 12, "99999 days ago"],
)
def test_anything_else_is_unclear(text):
    with pytest.raises(DayUnclear) as unclear:
        told(text)
    assert unclear.value.facts == {"got": str(text)}


@pytest.mark.parametrize(("hour", "is_read"), [("00:59", True), ("01:00", False), ("02:59", False), ("03:00", True)])
def test_the_hours_in_which_clocks_may_change_are_not_taken(hour, is_read):
    if is_read:
        assert told(f"3 days ago {hour}").typed == f"2026-11-16 {hour}"
    else:
        with pytest.raises(DayUnclear):
            told(f"3 days ago {hour}")


@pytest.mark.parametrize(
    ("now", "typed"),
    [
        (datetime(2026, 11, 1, 4, 40, tzinfo=UTC), "2026-11-01 00:10"),
        (datetime(2026, 11, 1, 5, 40, tzinfo=UTC), "2026-11-01 01:10 -04:00"),
        (datetime(2026, 11, 1, 6, 40, tzinfo=UTC), "2026-11-01 01:10 -05:00"),
        (datetime(2026, 11, 1, 7, 40, tzinfo=UTC), "2026-11-01 02:10"),
    ],
)
def test_minutes_ago_in_the_hour_that_comes_twice_say_which(now, typed):
    assert told("30 minutes ago", now=now).typed == typed
