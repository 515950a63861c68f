"""A day on a screen cannot be read the other way round."""

import pytest

from repairlog.words.days import day


@pytest.mark.parametrize(
    ("on", "shown"), [("2026-12-31", "31 Dec 2026"), ("2026-03-05", "5 Mar 2026"), ("1999-01-01", "1 Jan 1999")]
)
def test_a_day_is_shown_with_its_month_in_words(on: str, shown: str) -> None:
    assert day(on) == shown


def test_what_is_no_day_is_not_shown_as_one() -> None:
    with pytest.raises(ValueError, match="day is out of range"):
        day("2026-02-30")
