"""`repairlog figure grade`, as the command is called.

The limits are those of the national guide's examples, as `config/rulebooks/us-guide.toml` cites them (restated), and
of 220 CMR 114.07 (text checked).
"""

import json
from typing import Any

import pytest

from tests.cli.conftest import Say


def graded(say: Say, *words: str) -> dict[str, Any]:
    """The answer as JSON."""
    answer = say("figure", "grade", *words, "--json")
    assert (answer.code, answer.err) == (0, "")
    told = json.loads(answer.out)
    assert isinstance(told, dict)
    return told


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("--place", "confined_space", "--reading", "19.9 %LEL"), "3"),
        (("--place", "confined_space", "--reading", "20 %LEL"), "2"),
        (("--place", "confined_space", "--reading", "79.9 %LEL"), "2"),
        (("--place", "confined_space", "--reading", "80 %LEL"), "1"),
        (("--place", "confined_space", "--reading", "4 %gas"), "1"),
        (("--place", "confined_space", "--reading", "3.52 %gas"), "2"),
        (("--place", "confined_space", "--reading", "3.52 %gas", "--lel-basis", "4.4"), "1"),
        (("--place", "confined_space", "--reading", "10 %LEL", "--reading", "80 %LEL"), "1"),
        (("--place", "sidewalk", "--reading", "39.9 %LEL", "--paved"), None),
        (("--place", "sidewalk", "--reading", "40 %LEL", "--paved"), "2"),
        (("--place", "sidewalk", "--reading", "40 %LEL"), None),
        (("--place", "street", "--reading", "99.9 %LEL", "--paved"), None),
        (("--place", "street", "--reading", "100 %LEL", "--paved"), "2"),
        (("--place", "outside_wall", "--reading", "1 ppm"), "1"),
        (("--place", "outside_wall", "--reading", "0 ppm"), None),
        (("--place", "small_substructure", "--owner", "gas_associated", "--reading", "79.9 %LEL"), "3"),
        (("--place", "small_substructure", "--owner", "gas_associated", "--reading", "80 %LEL"), "2"),
        (("--place", "small_substructure", "--owner", "other", "--reading", "80 %LEL"), "1"),
        (("--place", "street", "--ignited"), "1"),
        (("--place", "street", "--seen-or-heard"), "1"),
        (("--place", "street", "--seen-or-heard", "--denied", "public_or_property_endangered"), None),
        (("--smys", "30", "--class-location", "3", "--reading", "1 %LEL"), "2"),
        (("--smys", "29.9", "--class-location", "3", "--reading", "1 %LEL"), None),
    ],
)
def test_readings_call_for_a_grade_under_national_guide_practice(
    say: Say, words: tuple[str, ...], expected: str | None
) -> None:
    assert graded(say, "--rulebook", "us-guide", *words).get("grade") == expected


def test_the_answer_names_criterion_clause_mark_readings_and_what_was_assumed(say: Say) -> None:
    words = ("--place", "small_substructure", "--owner", "other", "--reading", "12 %LEL", "--reading", "85 %LEL")
    told = graded(say, "--rulebook", "us-guide", *words)
    assert {name: told[name] for name in ("grade", "criterion", "mark", "readings", "assumed")} == {
        "grade": "1",
        "criterion": "small-substructure-80",
        "mark": "restated",
        "readings": ["85 %LEL"],
        "assumed": ["likely_to_reach_outside_wall"],
    }
    assert told["clause"].startswith("G-192-11")


@pytest.mark.parametrize(("reading", "expected"), [("49.9 %gas", None), ("50 %gas", "3E"), ("1000 %LEL", "3E")])
def test_massachusetts_has_a_class_of_its_own_from_half_gas_in_a_bar_hole(
    say: Say, reading: str, expected: str | None
) -> None:
    assert graded(say, "--rulebook", "us-ma", "--place", "bar_hole", "--reading", reading).get("grade") == expected


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--rulebook", "us-gide"), "rulebook_unknown"),
        (("--rulebook", "us-guide", "--given", "9"), "grade_unknown"),
        (("--rulebook", "us-guide", "--reading", "45"), None),
        (("--rulebook", "us-guide", "--smys", "much"), "percent_unreadable"),
    ],
)
def test_what_cannot_be_understood_ends_2_and_says_why(say: Say, words: tuple[str, ...], code: str | None) -> None:
    answer = say("figure", "grade", *words, "--json")
    error = json.loads(answer.out)["error"]
    assert (answer.code, error["code"] == code or code is None) == (2, True)


def test_an_unknown_place_ends_2_and_the_known_ones_are_named(say: Say) -> None:
    answer = say("figure", "grade", "--rulebook", "us-guide", "--place", "roof")
    assert (answer.code, "small_substructure" in answer.err) == (2, True)


def test_a_person_reads_the_criterion_what_was_assumed_and_the_caution(say: Say) -> None:
    words = ("--place", "small_substructure", "--owner", "other", "--reading", "85 %LEL")
    told = say("figure", "grade", "--rulebook", "us-guide", *words).out.splitlines()
    assert told[0].startswith("Calls for grade 1 at least: A reading of 80 %LEL or more in a small substructure")
    assert told[1:] == [
        "Nobody answered, so it counts as so: gas is likely to reach the outside wall of a building.",
        "Figures are aids. The operator's procedures, the maker's instructions, the law and qualified people govern.",
    ]
