"""The figures with a command of their own form: on a page they say what their command says, and refuse in its words."""

from __future__ import annotations

import json
from typing import Any

import pytest

from repairlog import cli
from repairlog.figures.convert import CONVERT
from repairlog.figures.due import DUE
from repairlog.figures.grade import GRADE
from repairlog.figures.interval import INTERVAL
from tests.makers.figures import Typed, refused, worked
from tests.makers.published import table


@pytest.fixture
def commanded(capsys):
    """The answer of the command as JSON."""

    def said(*words: str) -> dict[str, Any]:
        assert cli.run(["figure", *words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return said


@pytest.mark.parametrize(
    ("reading", "options"),
    [
        ("7 in wc", {"to": "kPa"}),
        ("60 psi", {"to": "psia", "elevation": "5280 ft"}),
        ("45 %LEL", {"to": "% gas"}),
        ("2.2 %gas", {"to": "%LEL", "lel_basis": "4.4"}),
        ("1 g/min", {"to": "scfh"}),
        ("1000 scf", {"from_base": "60 F, 14.73 psia", "to_base": "15 C, 101.325 kPa"}),
        ("-5 C", {"to": "F", "quantity": "temperature"}),
    ],
)
def test_a_reading_in_another_unit_is_what_the_command_says(commanded, reading, options):
    words = [word for name, text in options.items() for word in (f"--{name.replace('_', '-')}", text)]
    by_command = commanded("convert", reading, *words)
    found = worked(CONVERT, reading=reading, **options)
    assert (found["value"], found["canonical"]) == (by_command["value"], by_command["canonical"])
    assert found["understood"]["reading"] in by_command["understood"]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"to": "kPa"}, ("reading", "missing")),
        ({"reading": "7 in wc"}, ("to", "missing")),
        ({"reading": "7 in wc", "to": "zonk"}, ("to", "unit_unknown")),
        ({"reading": "7 in wc", "to": "mm"}, ("reading", "unit_of_other_quantity")),
        ({"reading": "-20 psi", "to": "kPa"}, ("reading", "below_vacuum")),
        ({"reading": "1e400 psi", "to": "kPa"}, ("reading", "number_unreadable")),
        ({"reading": "7 in wc", "to": "kPa", "from_base": "60 F"}, ("from_base", "not_written_so")),
        ({"reading": "1000 scf", "from_base": "60 F, 14.73 psia"}, ("to_base", "missing")),
        ({"reading": "7 in wc", "to": "kPa", "lel_basis": "6"}, ("lel_basis", "not_a_choice")),
    ],
)
def test_a_reading_that_cannot_be_converted_is_refused_at_its_box(typed, expected):
    assert refused(CONVERT, **typed) == [expected]


CASES = [row for row in table("interval_cases.csv") if "T" not in row["start"] and "(" not in row["rule"]]


@pytest.mark.parametrize("row", CASES, ids=lambda row: f"{row['rule']} from {row['start']}")
def test_an_interval_is_due_when_its_worked_case_says(row):
    found = worked(INTERVAL, rule=row["rule"], last=row["start"])
    assert found["due_on"] == row["due"]


def test_an_interval_in_hours_is_due_at_a_moment_of_the_zone(commanded):
    words = ("--rule", "24 hours", "--last", "2025-03-08T10:00", "--zone", "America/New_York")
    by_command = commanded("interval", *words)
    found = worked(INTERVAL, rule="24 hours", last="2025-03-08T10:00", zone="America/New_York")
    assert (found["due_at"], found["governed_by"]) == (by_command["due_at"], by_command["governed_by"])


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"last": "2025-03-05"}, ("rule", "missing")),
        ({"rule": "often", "last": "2025-03-05"}, ("rule", "said")),
        ({"rule": "24 hours", "last": "2025-03-05"}, ("last", "hour_needed")),
        ({"rule": "24 hours", "last": "2025-03-05T10:00"}, ("zone", "zone_needed")),
        ({"rule": "6 months", "last": "soon"}, ("last", "not_written_so")),
        ({"rule": "6 months", "last": "9999-12-31"}, ("rule", "past_the_calendar")),
        ({"rule": "6 months", "last": "2025-03-05", "calendar": "ZZ"}, ("calendar", "calendar_unknown")),
        ({"rule": "6 months", "last": "2025-03-05", "done": "1.5"}, ("done", "not_whole")),
        ({"rule": "6 months", "last": "2025-03-05", "done": "0"}, ("done", "not_whole")),
        ({"rule": "next scheduled round", "last": "2025-03-05"}, ("next_round", "round_needed")),
    ],
)
def test_an_interval_that_cannot_be_counted_is_refused_at_its_box(typed, expected):
    assert refused(INTERVAL, **typed) == [expected]


GRADED: list[tuple[dict[str, Typed], tuple[str, ...]]] = [
    ({"place": "confined_space", "reading": ["19.9 %LEL"]}, ("--place", "confined_space", "--reading", "19.9 %LEL")),
    ({"place": "confined_space", "reading": ["80 %LEL"]}, ("--place", "confined_space", "--reading", "80 %LEL")),
    ({"place": "street", "ignited": True}, ("--place", "street", "--ignited")),
    (
        {"place": "street", "seen_or_heard": True, "public_or_property_endangered": "no"},
        ("--place", "street", "--seen-or-heard", "--denied", "public_or_property_endangered"),
    ),
    (
        {"smys": "30 %", "class_location": "3", "reading": ["1 %LEL"]},
        ("--smys", "30", "--class-location", "3", "--reading", "1 %LEL"),
    ),
    (
        {"place": "small_substructure", "owner": "other", "reading": ["12 %LEL", "85 %LEL"]},
        ("--place", "small_substructure", "--owner", "other", "--reading", "12 %LEL", "--reading", "85 %LEL"),
    ),
]


@pytest.mark.parametrize(("typed", "words"), GRADED, ids=[" ".join(words) for _typed, words in GRADED])
def test_the_least_grade_is_the_command_s_with_its_clause(commanded, typed, words):
    by_command = commanded("grade", "--rulebook", "us-guide", *words)
    found = worked(GRADE, **typed)
    assert found["grade"] == by_command.get("grade", "none by these")
    assert found.get("clause") == by_command.get("clause")


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"reading": ["45 psi"]}, ("reading", "unit_of_other_quantity")),
        ({"smys": "-1"}, ("smys", "negative")),
        ({"given": "9"}, ("given", "not_a_choice")),
        ({"rulebook": "us-zz"}, ("rulebook", "not_a_choice")),
        ({"on": "soon"}, ("on", "not_written_so")),
        ({"distance": "-5 ft"}, ("distance", "negative")),
    ],
)
def test_what_cannot_be_graded_is_refused_at_its_box(typed, expected):
    assert refused(GRADE, **typed) == [expected]


def test_what_is_owed_is_what_the_command_says(commanded):
    by_command = commanded("due", "--rulebook", "us-guide", "--grade", "2", "--found", "2026-03-05")
    found = worked(DUE, rulebook="us-guide", grade="2", found="2026-03-05")
    days = sorted(each["due_on"] for each in by_command["due"])
    assert found["due_on"] == days[0]
    told = [found[f"item_{number}"] for number in range(1, len(days) + 1)]
    assert [day in text for day, text in zip(days, told, strict=True)] == [True] * len(days)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ({"found": "2026-03-05"}, ("grade", "missing")),
        ({"grade": "2"}, ("found", "missing")),
        ({"grade": "9", "found": "2026-03-05"}, ("grade", "not_a_choice")),
        ({"grade": "2", "found": "2026-03-05", "criterion": "none-such"}, ("criterion", "not_a_choice")),
        ({"grade": "2", "found": "2026-03-05T10:00"}, ("zone", "zone_needed")),
    ],
)
def test_what_is_owed_by_nobody_knows_when_is_refused_at_its_box(typed, expected):
    assert refused(DUE, **typed) == [expected]
