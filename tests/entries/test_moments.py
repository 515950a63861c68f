from datetime import UTC, datetime, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.moments import moment_text, read_moment


def test_a_moment_is_written_in_utc_to_the_millisecond() -> None:
    assert moment_text(datetime(2026, 3, 5, 10, 2, tzinfo=ZoneInfo("America/New_York"))) == "2026-03-05T15:02:00.000Z"
    assert moment_text(datetime(2026, 3, 5, 10, 2, tzinfo=UTC)) == "2026-03-05T10:02:00.000Z"
    assert moment_text(datetime(987, 1, 2, tzinfo=UTC)) == "0987-01-02T00:00:00.000Z"


def test_the_hour_that_clocks_repeat_is_two_moments() -> None:
    repeated = datetime(2026, 11, 1, 1, 30, tzinfo=ZoneInfo("America/New_York"))
    assert moment_text(repeated) == "2026-11-01T05:30:00.000Z"
    assert moment_text(repeated.replace(fold=1)) == "2026-11-01T06:30:00.000Z"


@pytest.mark.parametrize("year", [1969, 2026])
def test_digits_beyond_the_millisecond_are_dropped_toward_the_past(year: int) -> None:
    whole = datetime(year, 12, 31, 23, 59, 59, 999000, tzinfo=UTC)
    written = [moment_text(whole + timedelta(microseconds=more)) for more in (-1, 0, 1, 999, 1000)]
    assert written == [
        f"{year}-12-31T23:59:59.998Z",
        f"{year}-12-31T23:59:59.999Z",
        f"{year}-12-31T23:59:59.999Z",
        f"{year}-12-31T23:59:59.999Z",
        f"{year + 1}-01-01T00:00:00.000Z",
    ]


class ZoneWithoutOffset(tzinfo):
    def utcoffset(self, at: datetime | None) -> None:
        return None

    dst = utcoffset

    def tzname(self, at: datetime | None) -> str:
        return "nowhere"


def test_a_moment_without_an_offset_is_refused() -> None:
    for zone in (None, ZoneWithoutOffset()):
        with pytest.raises(ValueError, match="2026-03-05T10:02:00 names no zone"):
            moment_text(datetime(2026, 3, 5, 10, 2, tzinfo=zone))


def test_a_moment_that_utc_puts_before_year_1_or_after_9999_is_refused() -> None:
    first = datetime(1, 1, 1, tzinfo=timezone(timedelta(hours=1)))
    last = datetime(9999, 12, 31, 23, tzinfo=timezone(timedelta(hours=-1)))
    for moment in (first, last):
        with pytest.raises(ValueError, match="outside the years 1 to 9999"):
            moment_text(moment)
    assert moment_text(first + timedelta(hours=1)) == "0001-01-01T00:00:00.000Z"
    assert moment_text(last - timedelta(hours=1)) == "9999-12-31T23:00:00.000Z"


def test_a_moment_is_read_as_aware_utc() -> None:
    read = read_moment("2026-03-05T10:02:00.120Z")
    assert read == datetime(2026, 3, 5, 10, 2, 0, 120000, tzinfo=UTC)
    assert read.tzinfo is UTC


@pytest.mark.parametrize(
    "text",
    [
        "",
        "2026-03-05",
        "2026-03-05T10:02:00Z",
        "2026-03-05T10:02:00.00Z",
        "2026-03-05T10:02:00.0000Z",
        "2026-03-05T10:02:00.000",
        "2026-03-05T10:02:00.000z",
        "2026-03-05t10:02:00.000Z",
        "2026-03-05 10:02:00.000Z",
        "2026-03-05T10:02:00,000Z",
        "2026-03-05T10:02:00.000+00:00",
        "20260305T100200.000Z",
        "2026-W10-4T10:02:00.000Z",
        "2026-03-05T24:00:00.000Z",
        "2026-03-05T10:02:00.000Z\n",
        " 2026-03-05T10:02:00.000Z",
        "\u0662026-03-05T10:02:00.000Z",
        "+2026-03-05T10:02:00.000Z",
    ],
)
def test_a_moment_written_any_other_way_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no moment; one is written 2026-03-05T10:02:00\.000Z"):
        read_moment(text)


@pytest.mark.parametrize(
    "text",
    [
        "2026-02-29T10:02:00.000Z",
        "2026-13-05T10:02:00.000Z",
        "2026-03-00T10:02:00.000Z",
        "0000-03-05T10:02:00.000Z",
        "2026-03-05T10:60:00.000Z",
        "2016-12-31T23:59:60.000Z",  # a leap second that was; no clock of ours can hold it
    ],
)
def test_a_day_or_an_hour_that_is_not_there_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="the calendar or the clock has no such"):
        read_moment(text)


@given(st.datetimes(timezones=st.just(UTC)))
def test_reading_what_was_written_gives_the_moment_to_the_millisecond(moment: datetime) -> None:
    whole = moment.replace(microsecond=moment.microsecond // 1000 * 1000)
    assert read_moment(moment_text(moment)) == whole
    assert moment_text(read_moment(moment_text(moment))) == moment_text(moment)


@given(*[st.datetimes(timezones=st.just(UTC))] * 2)
def test_texts_sort_as_their_moments_do(one: datetime, other: datetime) -> None:
    assert (moment_text(one) <= moment_text(other)) == (
        read_moment(moment_text(one)) <= read_moment(moment_text(other))
    )
