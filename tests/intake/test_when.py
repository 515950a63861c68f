"""Days and moments as people type them, where clocks change and where years end."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.intake.understood import is_zone
from repairlog.intake.when import When, WhenUnclear, as_typed, is_in_the_future, moment_in, read_when

NEW_YORK, LONDON = "America/New_York", "Europe/London"


def told(text: str, zone: str = NEW_YORK) -> tuple[str, dict[str, Any]]:
    """Code and facts of what is said of a text that cannot be read."""
    with pytest.raises(WhenUnclear) as unclear:
        read_when(text, zone)
    return unclear.value.code, unclear.value.facts


@pytest.mark.parametrize(
    ("text", "at", "offset"),
    [
        ("2026-03-05 10:02", datetime(2026, 3, 5, 15, 2, tzinfo=UTC), "-05:00"),
        ("2026-03-05T10:02", datetime(2026, 3, 5, 15, 2, tzinfo=UTC), "-05:00"),
        ("2026-07-05 10:02:30", datetime(2026, 7, 5, 14, 2, 30, tzinfo=UTC), "-04:00"),
        ("2026-03-05 00:00", datetime(2026, 3, 5, 5, 0, tzinfo=UTC), "-05:00"),
        ("2026-03-05 23:59:59", datetime(2026, 3, 6, 4, 59, 59, tzinfo=UTC), "-05:00"),
        ("2026-03-05 10:02 -05:00", datetime(2026, 3, 5, 15, 2, tzinfo=UTC), "-05:00"),
        ("2026-03-05 10:02-05:00", datetime(2026, 3, 5, 15, 2, tzinfo=UTC), "-05:00"),
        ("2026-03-05T15:02Z", datetime(2026, 3, 5, 15, 2, tzinfo=UTC), "-05:00"),
    ],
)
def test_a_moment_is_read_in_the_area_s_zone(text: str, at: datetime, offset: str) -> None:
    assert read_when(text, NEW_YORK) == When(date.fromisoformat(text[:10]), at, offset)


def test_a_day_alone_has_no_hour() -> None:
    assert read_when("2026-03-05", NEW_YORK) == When(date(2026, 3, 5))


@pytest.mark.parametrize(
    ("text", "on"),
    [
        ("2026-03-05 23:30 -08:00", date(2026, 3, 6)),
        ("2026-03-05 02:30 +00:00", date(2026, 3, 4)),
        ("2026-03-05 04:59Z", date(2026, 3, 4)),
        ("2026-03-05 05:00Z", date(2026, 3, 5)),
        ("2026-03-05 10:02 +14:00", date(2026, 3, 4)),
    ],
)
def test_a_moment_in_another_offset_falls_on_the_area_s_own_day(text: str, on: date) -> None:
    when = read_when(text, NEW_YORK)
    assert (when.on, when.offset) == (on, "-05:00")


@pytest.mark.parametrize(
    "text",
    [
        *(
            "",
            "yesterday",
            "3/5/2026",
            "5.3.2026",
            "2026-3-5",
            "2026-03-05 10",
            "2026-03-05 9:02",
            "2026-03-05 10:02 AM",
        ),
        *("2026-03-05 10.02", "2026-03-05  10:02", " 2026-03-05", "2026-03-05\n", "20260305", "2026-03-05 10:02 EST"),
        *("2026-03-05 10:02:30.000", "2026-03-05T10:02:30.000Z", "2026-03-05 -05:00", "2026-03-05Z", "-2026-03-05"),
        *("12026-03-05", "2026-03-05 10:02 -5:00", "2026-03-05 10:02 -0500", "before 2016-12-31"),
        *("on or before 2016-12-31", "2026-03-05 1O:02", "٢٠٢٦-03-05"),
    ],
)
def test_what_is_no_day_is_sent_back_as_it_came(text: str) -> None:
    assert told(text) == ("when_unreadable", {"got": text})


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2026-02-28", ""),
        ("2026-02-29", "no_such_day"),
        ("2026-02-30", "no_such_day"),
        ("2024-02-29", ""),
        ("1900-02-29", "no_such_day"),
        ("2000-02-29", ""),
        ("2026-04-31", "no_such_day"),
        ("2026-13-01", "no_such_day"),
        ("2026-00-10", "no_such_day"),
        ("2026-10-00", "no_such_day"),
        ("0000-01-01", "no_such_day"),
        ("2026-03-05 23:59", ""),
        ("2026-03-05 24:00", "no_such_hour"),
        ("2026-03-05 10:60", "no_such_hour"),
        ("2026-03-05 10:02:60", "no_such_hour"),
        ("2026-03-05 23:02 +14:00", ""),
        ("2026-03-05 10:02 +15:00", "offset_unreadable"),
        ("2026-03-05 10:02 -05:60", "offset_unreadable"),
    ],
)
def test_only_days_of_the_calendar_and_hours_of_the_clock_are_read(text: str, code: str) -> None:
    # Source: the Gregorian calendar, whose century years are leap by four hundred; from memory.
    if code:
        assert told(text) == (code, {"got": text})
    else:
        assert read_when(text, NEW_YORK).on == date.fromisoformat(text[:10])


@pytest.mark.parametrize(
    ("year", "wrong"), [(1799, True), (1800, False), (1801, False), (2998, False), (2999, False), (3000, True)]
)
def test_a_year_is_read_between_its_ends(year: int, wrong: bool) -> None:
    facts = {"got": f"{year}-06-01", "least": "1800", "most": "2999"}
    if wrong:
        assert told(f"{year}-06-01") == ("year_out_of_range", facts)
    else:
        assert read_when(f"{year}-06-01", NEW_YORK).on.year == year


# Source: the IANA time zone database; America/New_York 8 March and 1 November 2026 at 02:00, Europe/London 29 March
# and 25 October 2026 at 01:00 UTC.
@pytest.mark.parametrize(
    ("zone", "text", "code"),
    [
        (NEW_YORK, "2026-03-08 01:59", ""),
        (NEW_YORK, "2026-03-08 02:00", "hour_does_not_exist"),
        (NEW_YORK, "2026-03-08 02:59:59", "hour_does_not_exist"),
        (NEW_YORK, "2026-03-08 03:00", ""),
        (NEW_YORK, "2026-11-01 00:59", ""),
        (NEW_YORK, "2026-11-01 01:00", "hour_comes_twice"),
        (NEW_YORK, "2026-11-01 01:59:59", "hour_comes_twice"),
        (NEW_YORK, "2026-11-01 02:00", ""),
        (LONDON, "2026-03-29 00:59", ""),
        (LONDON, "2026-03-29 01:00", "hour_does_not_exist"),
        (LONDON, "2026-03-29 01:59:59", "hour_does_not_exist"),
        (LONDON, "2026-03-29 02:00", ""),
        (LONDON, "2026-10-25 00:59", ""),
        (LONDON, "2026-10-25 01:00", "hour_comes_twice"),
        (LONDON, "2026-10-25 01:59:59", "hour_comes_twice"),
        (LONDON, "2026-10-25 02:00", ""),
    ],
)
def test_the_hours_that_clocks_skip_and_repeat_are_asked_about(zone: str, text: str, code: str) -> None:
    if not code:
        assert read_when(text, zone).on == date.fromisoformat(text[:10])
        return
    came, facts = told(text, zone)
    both = {NEW_YORK: ["-04:00", "-05:00"], LONDON: ["+01:00", "+00:00"]}[zone]
    assert (came, facts) == (code, {"got": text} | ({"would_have": both} if code == "hour_comes_twice" else {}))


@pytest.mark.parametrize(("text", "utc"), [("2026-11-01 01:30 -04:00", "05:30"), ("2026-11-01 01:30 -05:00", "06:30")])
def test_an_offset_says_which_of_two_hours_is_meant(text: str, utc: str) -> None:
    when = read_when(text, NEW_YORK)
    assert (f"{when.at:%H:%M}", when.offset, when.on) == (utc, text[-6:], date(2026, 11, 1))


def test_an_hour_that_was_skipped_is_read_with_an_offset_as_the_moment_it_was() -> None:
    assert read_when("2026-03-08 02:30 -05:00", NEW_YORK) == When(
        date(2026, 3, 8), datetime(2026, 3, 8, 7, 30, tzinfo=UTC), "-04:00"
    )


@given(st.integers(0, 366 * 24 * 3600), st.sampled_from([NEW_YORK, LONDON, "Asia/Kathmandu", "Australia/Lord_Howe"]))
def test_every_second_of_a_year_is_read_back_from_its_own_local_time_and_offset(seconds: int, zone: str) -> None:
    when = moment_in(datetime(2026, 1, 1, tzinfo=UTC) + timedelta(seconds=seconds), zone)
    assert when.at is not None
    ahead = timedelta(hours=int(when.offset[1:3]), minutes=int(when.offset[4:])) * (-1 if when.offset[0] == "-" else 1)
    local = (when.at + ahead).strftime("%Y-%m-%d %H:%M:%S")
    assert (read_when(f"{local} {when.offset}", zone), local[:10]) == (when, when.on.isoformat())


NOW = datetime(2026, 3, 5, 15, 20, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "offset", "future"),
    [
        ("2026-03-05 11:19:59", 0, False),
        ("2026-03-05 11:20", 0, False),
        ("2026-03-05 11:20:01", 0, True),
        ("2026-03-05 11:29:59", 600_000, False),
        ("2026-03-05 11:30", 600_000, False),
        ("2026-03-05 11:30:01", 600_000, True),
        ("2026-03-05 11:20", -600_000, False),
        ("2026-03-05 11:20:01", -600_000, True),
        ("2026-03-05 11:20", None, False),
        ("2026-03-05 11:20:01", None, True),
    ],
)
def test_a_moment_is_read_up_to_an_hour_ahead_of_the_server_or_of_a_device_that_is_fast(
    text: str, offset: int | None, future: bool
) -> None:
    assert is_in_the_future(read_when(text, NEW_YORK), now=NOW, offset_ms=offset, zone=NEW_YORK) is future


@pytest.mark.parametrize(("text", "future"), [("2026-03-04", False), ("2026-03-05", False), ("2026-03-06", True)])
def test_a_day_is_read_up_to_today_in_the_area_s_zone(text: str, future: bool) -> None:
    assert is_in_the_future(read_when(text, NEW_YORK), now=NOW, offset_ms=None, zone=NEW_YORK) is future


@pytest.mark.parametrize(
    ("now", "future"), [("2026-03-06T03:59:59", True), ("2026-03-06T04:00:00", False), ("2026-03-06T05:00:00", False)]
)
def test_tomorrow_is_read_in_the_last_hour_before_midnight(now: str, future: bool) -> None:
    at = datetime.fromisoformat(f"{now}+00:00")
    assert is_in_the_future(read_when("2026-03-06", NEW_YORK), now=at, offset_ms=None, zone=NEW_YORK) is future


@pytest.mark.parametrize(
    ("name", "known"),
    [
        *(("America/New_York", True), ("Europe/London", True), ("UTC", True), ("America/Newyork", False)),
        *(("", False), ("../etc/passwd", False), ("/etc/localtime", False), ("Eastern", False), ("a\x00b", False)),
        *(("localtime", False), ("Factory", False), ("right/America/New_York", False), ("posixrules", False)),
        *(("America", False), ("EST5EDT,M3.2.0,M11.1.0", False), ("x" * 64, False), (".", False)),
    ],
)
def test_a_zone_is_one_of_the_time_zone_database(name: str, known: bool) -> None:
    assert is_zone(name) is known


@pytest.mark.parametrize(
    ("at", "text"),
    [
        ("2026-03-05T15:20:59", "2026-03-05 10:20"),
        ("2026-11-01T05:30:00", "2026-11-01 01:30 -04:00"),  # clocks are put back at 02:00 of that day
        ("2026-11-01T06:30:00", "2026-11-01 01:30 -05:00"),
        ("2026-11-01T07:00:00", "2026-11-01 02:00"),
    ],
)
def test_a_moment_as_a_person_types_it_is_read_as_that_minute(at: str, text: str) -> None:
    moment = datetime.fromisoformat(at).replace(tzinfo=UTC)
    assert as_typed(moment, "America/New_York") == text
    assert read_when(text, "America/New_York").at == moment.replace(second=0)
