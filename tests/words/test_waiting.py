"""A wait in words: never told as shorter than it is."""

from datetime import timedelta

import pytest

from repairlog.words.waiting import said, sentence, whole_seconds


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (1, "1 second"),
        (2, "2 seconds"),
        (90, "90 seconds"),
        (91, "2 minutes"),
        (120, "2 minutes"),
        (121, "3 minutes"),
        (900, "15 minutes"),
    ],
)
def test_up_to_ninety_seconds_are_said_as_they_are_and_more_in_minutes(seconds: int, words: str) -> None:
    assert said(seconds) == words


@pytest.mark.parametrize(("milliseconds", "seconds"), [(1, 1), (999, 1), (1000, 1), (1001, 2)])
def test_a_part_of_a_second_counts_as_one(milliseconds: int, seconds: int) -> None:
    assert whole_seconds(timedelta(milliseconds=milliseconds)) == seconds


def test_who_must_wait_is_told_for_how_long_and_that_nothing_is_looked_at_sooner() -> None:
    told = "Too many tries did not fit. Wait 30 seconds, then try again; the right password is not looked at sooner."
    assert sentence(30) == told
