"""Intervals against worked cases and against the federal holidays of eleven years.

Sources: 49 CFR 192.723, 192.721 and 192.747 (each calendar year and 15 months, 5 years and 63, 3 and 39, 4 1/2 and
7 1/2 months); PHMSA PI-92-052 (1 October 1992): to the corresponding day, on or before. The due days of
`interval_cases.csv` were typed by hand and recomputed twice; that half a month is 15 days is a convention of ours.
"""

import re
from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from repairlog.trade.intervals import Counted, count, count_from, is_working_day, read_interval
from tests.makers.published import table

CASES = table("interval_cases.csv")
HOLIDAYS = {date.fromisoformat(row["observed_date"]) for row in table("us_federal_holidays_observed.csv")}


def rule_of(row: dict[str, str]) -> str:
    """The rule without what the table remarks on it in brackets."""
    return re.sub(r" \(.*\)$", "", row["rule"])


def counted(row: dict[str, str]) -> Counted:
    """The case counted from its day, or from its moment in its zone."""
    start = row["start"]
    if "T" not in start:
        return count(read_interval(rule_of(row)), date.fromisoformat(start))
    written, *_, zone = re.sub(r" \(.*\)$", "", start).split()
    at = datetime.fromisoformat(written).replace(tzinfo=ZoneInfo(zone), fold=0)
    return count_from(read_interval(rule_of(row)), at, zone=ZoneInfo(zone))


@pytest.mark.parametrize("row", CASES, ids=lambda row: f"{row['case']}: {row['rule']} from {row['start']}")
def test_a_worked_case_comes_out_as_it_was_worked(row: dict[str, str]) -> None:
    found = counted(row)
    zone = ZoneInfo(re.sub(r" \(.*\)$", "", row["start"]).split()[-1]) if "T" in row["start"] else None
    told = found.due_at.astimezone(zone).isoformat(timespec="minutes") if found.due_at else found.due_on.isoformat()
    assert told == row["due"]


def test_every_kind_of_case_of_the_table_is_there() -> None:
    assert len(CASES) == 34


def test_the_working_days_of_eleven_years_are_all_but_weekends_and_federal_holidays() -> None:
    """Every other observed holiday is listed; that there are 120 of them, ten in 2020 and eleven a year since, is
    5 U.S.C. 6103 with Juneteenth from 2021."""
    days = [date.fromordinal(each) for each in range(date(2020, 1, 1).toordinal(), date(2031, 1, 1).toordinal())]
    free = {day for day in days if day.weekday() < 5 and not is_working_day(day)}
    assert (HOLIDAYS - free, len(free)) == (set(), 120)
