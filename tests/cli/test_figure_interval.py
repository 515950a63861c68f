"""`repairlog figure interval`, as the command is called."""

import json

import pytest

from tests.cli.conftest import Say

CAUTION = "Figures are aids. The operator's procedures, the maker's instructions, the law and qualified people govern."


@pytest.mark.parametrize(
    ("rule", "last", "more", "expected"),
    [
        (
            "each calendar year, not exceeding 15 months",
            "2023-09-30",
            (),
            {"due_on": "2024-12-30", "governed_by": "15 months"},
        ),
        (
            "each calendar year, not exceeding 15 months",
            "2023-10-01",
            (),
            {"due_on": "2024-12-31", "governed_by": "calendar year"},
        ),
        ("2 business days", "2025-07-03", (), {"due_on": "2025-07-08", "governed_by": "2 business days"}),
        (
            "1 business day",
            "2025-07-03",
            ("--calendar", "GB-ENG"),
            {"due_on": "2025-07-04", "governed_by": "1 business day"},
        ),
        (
            "6 months",
            "2024-12-31T23:30",
            ("--zone", "America/New_York"),
            {"due_on": "2025-06-30", "governed_by": "6 months"},
        ),
        ("6 months", "2025-01-01T04:30+00:00", (), {"due_on": "2025-07-01", "governed_by": "6 months"}),
        (
            "24 hours",
            "2025-11-02T01:30-04:00",
            ("--zone", "America/New_York"),
            {"due_on": "2025-11-03", "governed_by": "24 hours", "due_at": "2025-11-03T00:30-05:00"},
        ),
        (
            "24 hours",
            "2025-11-02 01:30:15 -04:00",
            (),
            {"due_on": "2025-11-03", "governed_by": "24 hours", "due_at": "2025-11-03T01:30:15-04:00"},
        ),
        (
            "not before 14 days, not after 30 days",
            "2025-01-01",
            (),
            {"due_on": "2025-01-31", "governed_by": "30 days", "not_before": "2025-01-15"},
        ),
        (
            "15 months or next round, whichever first",
            "2025-01-01",
            ("--next-round", "2025-09-01"),
            {"due_on": "2025-09-01", "governed_by": "next round"},
        ),
        (
            "4 times each calendar year, not exceeding 4.5 months",
            "2025-10-20",
            ("--done", "3"),
            {"due_on": "2025-12-31", "governed_by": "calendar year"},
        ),
    ],
)
def test_an_interval_is_counted_and_its_bound_named(
    say: Say, rule: str, last: str, more: tuple[str, ...], expected: dict[str, str]
) -> None:
    answer = say("figure", "interval", "--rule", rule, "--last", last, *more, "--json")
    assert (answer.code, json.loads(answer.out), answer.err) == (0, expected, "")


@pytest.mark.parametrize(
    ("rule", "last", "more", "code"),
    [
        ("6 dayz", "2025-01-01", (), "unit_unreadable"),
        ("24 hours", "2025-11-02T01:30", ("--zone", "America/New_York"), "hour_comes_twice"),
        ("6 months", "2025-11-02T01:30", ("--zone", "America/New_York"), "hour_comes_twice"),
        ("24 hours", "2025-03-09T02:30", ("--zone", "America/New_York"), "hour_does_not_exist"),
        ("24 hours", "2025-01-01", (), "hour_needed"),
        ("24 hours", "2025-01-01T10:00", (), "zone_needed"),
        ("6 months", "2025-01-01", ("--zone", "Nowhere/At_All"), "zone_unknown"),
        ("6 months", "2025-02-29", (), "no_such_day"),
        ("6 months", "1 Jan 2025", (), "when_unreadable"),
        ("6 months", "9999-01-01", (), "year_out_of_range"),
        ("1 business day", "2025-01-01", ("--calendar", "XX"), "calendar_unknown"),
        ("next round", "2025-01-01", (), "round_needed"),
    ],
)
def test_what_cannot_be_counted_ends_2_and_says_why_and_what_to_write(
    say: Say, rule: str, last: str, more: tuple[str, ...], code: str
) -> None:
    answer = say("figure", "interval", "--rule", rule, "--last", last, *more, "--json")
    error = json.loads(answer.out)["error"]
    assert (answer.code, error["code"], answer.err) == (2, code, f"{error['message']}\n{error['hint']}\n")


def test_a_person_is_told_the_window_and_the_caution(say: Say) -> None:
    answer = say("figure", "interval", "--rule", "not before 14 days, not after 30 days", "--last", "2025-01-01")
    told = f"Due by 2025-01-31, by the bound “30 days”.\nNot before 2025-01-15.\n{CAUTION}\n"
    assert (answer.code, answer.out) == (0, told)


def test_a_person_is_told_the_moment_with_its_offset(say: Say) -> None:
    answer = say("figure", "interval", "--rule", "12 hours", "--last", "2025-01-01T10:00+00:00")
    assert answer.out == f"Due by 2025-01-01 22:00 +0000, by the bound “12 hours”.\n{CAUTION}\n"
