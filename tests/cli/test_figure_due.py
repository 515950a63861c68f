"""`repairlog figure due`, as the command is called.

The days are counted from the figures that `config/rulebooks` cites: national guide practice (memory), 220 CMR 114
(text checked), Gas Safety (Management) Regulations 1996, 7(4) (text checked), 16 NYCRR 255.819 (memory).
"""

import json
from typing import Any

import pytest

from tests.cli.conftest import Say


def owed(say: Say, *words: str) -> dict[str, dict[str, Any]]:
    """What is due, by task."""
    answer = say("figure", "due", *words, "--json")
    assert (answer.code, answer.err) == (0, "")
    return {item["task"]: item for item in json.loads(answer.out)["due"]}


@pytest.mark.parametrize(
    ("words", "task", "expected"),
    [
        (("us-guide", "1", "2023-01-10"), "act", {"due_on": "2023-01-10", "mark": "restated"}),
        (("us-guide", "2", "2023-01-10"), "repair", {"due_on": "2024-04-10", "mark": "memory", "proposed": True}),
        (("us-guide", "2", "2023-10-01"), "repair", {"due_on": "2024-12-31", "governed_by": "calendar year"}),
        (("us-guide", "2", "2023-08-31"), "re_evaluate", {"due_on": "2024-02-29"}),
        (("us-guide", "2", "2023-01-12", "--reported", "2023-01-10"), "repair", {"counted_on": "2023-01-10"}),
        (("us-ma", "2", "2023-01-10", "--graded", "2023-02-01"), "repair", {"due_on": "2024-02-01", "proposed": False}),
        (("us-ma", "3E", "2023-01-10", "--graded", "2023-02-01"), "repair", {"due_on": "2025-02-01"}),
        (
            ("us-ma", "3E", "2023-01-10", "--graded", "2023-02-01", "--replacement-planned"),
            "repair",
            {"due_on": "2026-02-01"},
        ),
        (
            ("us-ny", "1", "2023-01-10", "--repaired", "2023-02-01"),
            "follow_up",
            {"not_before": "2023-02-15", "due_on": "2023-03-03"},
        ),
        (
            ("us-guide", "1", "2023-01-10", "--repaired", "2023-01-31", "--residual-gas"),
            "follow_up",
            {"due_on": "2023-02-28"},
        ),
        (
            ("gb", "escape", "2025-03-30T00:30", "--zone", "Europe/London"),  # clocks went forward that night
            "act",
            {"due_on": "2025-03-30", "due_at": "2025-03-30T13:30+01:00", "proposed": False},
        ),
    ],
)
def test_an_item_is_due_as_the_rulebook_counts_it(
    say: Say, words: tuple[str, ...], task: str, expected: dict[str, Any]
) -> None:
    rulebook, grade, found, *more = words
    item = owed(say, "--rulebook", rulebook, "--grade", grade, "--found", found, *more)[task]
    assert {name: item.get(name) for name in expected} == expected


def test_a_repair_for_good_leaves_no_repair_and_a_temporary_one_does(say: Say) -> None:
    words = ("--rulebook", "us-guide", "--grade", "2", "--found", "2023-01-10", "--repaired", "2023-02-01")
    assert ("repair" in owed(say, *words), "repair" in owed(say, *words, "--temporary")) == (False, True)


def test_a_follow_up_that_hangs_on_residual_gas_is_not_owed_without_it(say: Say) -> None:
    words = ("--rulebook", "us-guide", "--grade", "1", "--found", "2023-01-10", "--repaired", "2023-01-31")
    assert owed(say, *words) == {}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--rulebook", "us-xx", "--grade", "1", "--found", "2023-01-10"), "rulebook_unknown"),
        (("--rulebook", "us-guide", "--grade", "9", "--found", "2023-01-10"), "grade_unknown"),
        (("--rulebook", "us-guide", "--grade", "2", "--criterion", "x", "--found", "2023-01-10"), "criterion_unknown"),
        (("--rulebook", "us-guide", "--grade", "2", "--found", "10 Jan"), "when_unreadable"),
    ],
)
def test_what_cannot_be_understood_ends_2_and_says_why(say: Say, words: tuple[str, ...], code: str) -> None:
    answer = say("figure", "due", *words, "--json")
    assert (answer.code, json.loads(answer.out)["error"]["code"]) == (2, code)


def test_a_person_reads_what_is_proposed_and_what_no_figure_is_known_for(say: Say) -> None:
    answer = say("figure", "due", "--rulebook", "us-guide", "--grade", "2", "--found", "2023-01-10", "--task", "repair")
    assert answer.out.startswith("repair: by 2024-04-10, proposed, not confirmed (G-192-11, grade 2)\n")
