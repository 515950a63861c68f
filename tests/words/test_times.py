"""Times with the zone that they are of. Offsets: those of the time zone database for these zones."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from repairlog.words import times

NEW_YORK = "America/New_York"


@pytest.mark.parametrize(
    ("moment", "zone", "told"),
    [
        ("2026-03-03T12:44:00+00:00", NEW_YORK, "2026-03-03T07:44-05:00"),
        ("2026-03-08T06:59:00+00:00", NEW_YORK, "2026-03-08T01:59-05:00"),
        ("2026-03-08T07:00:00+00:00", NEW_YORK, "2026-03-08T03:00-04:00"),
        ("2026-11-01T05:30:00+00:00", NEW_YORK, "2026-11-01T01:30-04:00"),
        ("2026-11-01T06:30:00+00:00", NEW_YORK, "2026-11-01T01:30-05:00"),
        ("2026-03-03T12:44:00+00:00", "UTC", "2026-03-03T12:44+00:00"),
        ("2026-03-03T23:00:00+00:00", "Asia/Kathmandu", "2026-03-04T04:45+05:45"),
    ],
)
def test_a_time_in_a_file_is_the_same_moment_whoever_reads_it(moment, zone, told):
    at = datetime.fromisoformat(moment)
    assert times.iso(at, zone=zone) == told
    assert datetime.fromisoformat(told) == at


def test_a_moment_that_nobody_knows_is_empty_and_seconds_are_told_where_they_are_asked_for():
    at = datetime(2026, 3, 3, 12, 44, 10, tzinfo=UTC)
    assert times.iso(None, zone=NEW_YORK) == ""
    assert times.iso(at, zone=NEW_YORK, to="seconds") == "2026-03-03T07:44:10-05:00"
    assert times.moment_told(times.iso(at, zone=NEW_YORK)) == "3 Mar 2026, 07:44"


def test_a_clock_names_its_zone_where_it_is_asked_to():
    at = datetime(2026, 7, 3, 12, 44, tzinfo=UTC)
    told = [times.day_and_hour(at, zone=NEW_YORK, named=named) for named in (False, True)]
    assert told == ["3 Jul 2026, 08:44", "3 Jul 2026, 08:44 EDT"]


@pytest.mark.parametrize(
    ("zones", "once", "of_entries"),
    [
        ([], "", ""),
        ([NEW_YORK, NEW_YORK], "Times are of America/New_York.", "Times are of America/New_York."),
        ([NEW_YORK, "UTC"], "", "Times of each entry are of its area: America/New_York, UTC."),
    ],
)
def test_a_page_says_its_zone_once_where_it_has_one(zones, once, of_entries):
    assert (times.said_once(zones), times.of_entries(zones)) == (once, of_entries)


@pytest.mark.parametrize(
    ("text", "is_one"),
    [
        ("stands at 2026-03-03 07:40, before", True),
        ("7:40", True),
        ("2026-03-03", False),
        ("ratio 1:4", False),
        ("07:400", False),
        ("", False),
    ],
)
def test_a_text_tells_a_time_where_there_is_one_in_it(text, is_one):
    assert times.tells_a_time(text) is is_one
