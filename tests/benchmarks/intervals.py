"""`intervals`: a pair of bounds counted from many days, against bare month arithmetic with the same two bounds."""

from __future__ import annotations

from calendar import monthrange
from datetime import date

from repairlog.trade.intervals import count, read_interval
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, taking_turns, turns_on

AIM = 3.0
RULE = "each calendar year, not exceeding 15 months"


def run(_at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: days that are counted from."""
    first = date(2000, 1, 1).toordinal()
    days = [date.fromordinal(first + number % 9000) for number in range(rows)]
    assert [found.due_on for found in map(counted, days)] == list(map(bare, days))
    taken = taking_turns(
        {"ours": lambda _: [counted(day) for day in days], "bare": lambda _: [bare(day) for day in days]},
        turns=turns_on(rows),
    )
    return Figure(
        name="intervals",
        database=database,
        rows=rows,
        unit="days/s",
        ours=rows / taken["ours"],
        baseline=rows / taken["bare"],
        ratio=taken["ours"] / taken["bare"],
        aim=AIM,
        what="15 months by divmod and monthrange, the end of the next calendar year, and the earlier of the two",
        same_rows=None,
    )


def counted(day: date):
    """Ours, read from its text each time as an item reads it."""
    return count(read_interval(RULE), day)


def bare(day: date) -> date:
    """The same by hand, without a word on what governed it."""
    year, month = divmod(day.year * 12 + day.month - 1 + 15, 12)
    months = date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
    return min(months, date(day.year + 1, 12, 31))
