"""What one cell says: days in the orders in which lists write them, house numbers, grades."""

from __future__ import annotations

from dataclasses import replace

import pytest

from repairlog.intake.lists import read_columns
from repairlog.intake.lists.cells import CellUnclear, house_and_street, is_grade, read_day
from tests.makers.old_lists import COLUMNS

MONTH_FIRST = read_columns(COLUMNS.encode())
DAY_FIRST = replace(MONTH_FIRST, order="day month year")
YEAR_FIRST = replace(MONTH_FIRST, order="year month day")


@pytest.mark.parametrize(
    ("cell", "columns", "day"),
    [
        ("4/10/16", MONTH_FIRST, "2016-04-10"),
        ("04-10-2016", MONTH_FIRST, "2016-04-10"),
        ("4.10.16", DAY_FIRST, "2016-10-04"),
        ("16/04/10", YEAR_FIRST, "2016-04-10"),
        ("2016-04-10", DAY_FIRST, "2016-04-10"),
        ("15-Nov-00", MONTH_FIRST, "2000-11-15"),
        ("15-Nov-00", YEAR_FIRST, None),
        ("1 may 2015", DAY_FIRST, "2015-05-01"),
        ("September 3, 1987", MONTH_FIRST, "1987-09-03"),
        ("12/31/49", MONTH_FIRST, "2049-12-31"),
        ("1/1/50", MONTH_FIRST, "1950-01-01"),
        ("1/1/51", MONTH_FIRST, "1951-01-01"),
        ("4/10/16 0:00", MONTH_FIRST, "2016-04-10"),
        ("4/10/16 00:00:00", MONTH_FIRST, "2016-04-10"),
        ("4/10/16 7:05", MONTH_FIRST, "2016-04-10 07:05"),
        ("2016-04-10T14:05:09", MONTH_FIRST, "2016-04-10 14:05:09"),
        ("2/29/16", MONTH_FIRST, "2016-02-29"),
    ],
)
def test_a_day_is_read_in_the_order_of_the_list(cell: str, columns, day: str | None) -> None:
    if day is None:
        with pytest.raises(CellUnclear):
            read_day(cell, columns)
    else:
        assert read_day(cell, columns) == day


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("13/1/16", "no_day_in_that_order"),
        ("2/30/16", "no_day_in_that_order"),
        ("2/29/15", "no_day_in_that_order"),
        ("0/1/16", "no_day_in_that_order"),
        ("spring 2016", "day_unreadable"),
        ("42470", "day_unreadable"),
        ("4/10", "day_unreadable"),
        ("4/10/216", "day_unreadable"),
        ("4/10/16 about noon", "day_unreadable"),
        ("Foo/10/16", "day_unreadable"),
        ("٤/10/16", "day_unreadable"),
        ("5-May-May", "day_unreadable"),
    ],
)
def test_what_is_no_day_is_not_guessed(cell: str, code: str) -> None:
    with pytest.raises(CellUnclear) as caught:
        read_day(cell, MONTH_FIRST)
    assert (caught.value.code, caught.value.facts) == (code, {"order": "month day year"})


def test_two_digits_of_a_year_need_a_century() -> None:
    with pytest.raises(CellUnclear) as caught:
        read_day("4/10/16", replace(MONTH_FIRST, two_digit_years_from=None))
    assert caught.value.code == "two_digit_year"


@pytest.mark.parametrize(
    ("cell", "parts"),
    [
        ("12 QUARRY LN", ("12", "QUARRY LN")),
        ("12A QUARRY LN", ("12A", "QUARRY LN")),
        ("12-14 QUARRY LN", ("12-14", "QUARRY LN")),
        ("12 - 14 QUARRY LN", ("12 - 14", "QUARRY LN")),
        ("12A-12C QUARRY LN", ("12A-12C", "QUARRY LN")),
        ("12 1/2 QUARRY LN", ("12 1/2", "QUARRY LN")),
        ("12  QUARRY  LN", ("12", "QUARRY LN")),
        ("12 1ST ST", ("12", "1ST ST")),
        ("1ST ST", ("", "1ST ST")),
        ("QUARRY LN", ("", "QUARRY LN")),
        ("REAR OF 12 QUARRY LN", ("", "REAR OF 12 QUARRY LN")),
        ("12", ("", "12")),
        ("12QUARRY", ("", "12QUARRY")),
        ("", ("", "")),
    ],
)
def test_a_house_number_is_taken_off_only_where_it_is_one(cell: str, parts: tuple[str, str]) -> None:
    assert house_and_street(cell) == parts


def test_a_grade_is_a_digit_with_or_without_a_letter() -> None:
    cells = ("1", "2A", "3b", "12", "A", "2AA", "Missed 2", "2 A", "", "٣")
    assert [cell for cell in cells if is_grade(cell)] == ["1", "2A", "3b"]
