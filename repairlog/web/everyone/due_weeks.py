"""Due items a week as a chart draws them: what is late first, then the weeks of half a year, and what comes after."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from repairlog.records.queries.due import DayCount

WEEKS = 26
"""Weeks that are drawn, this one the first."""

HIGH = 92
"""How high the highest bar is drawn, of a hundred."""

A_MONTH = timedelta(days=30)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """`monday`: of the week; None of what is late. `high`: how high it is drawn, of a hundred."""

    monday: date | None
    items: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Weeks:
    """`bars`: what is late, then a week each. `late`, `soon`, `after`: how many items are late, owed within thirty
    days, and owed after that."""

    bars: Sequence[Bar]
    late: int
    soon: int
    after: int


def weeks_of(counts: Sequence[DayCount], *, on: date) -> Weeks:
    """The chart on that day. A proposed day that is over counts in this week: it is never late."""
    this = on - timedelta(days=on.isoweekday() - 1)
    mondays = [this + timedelta(weeks=number) for number in range(WEEKS)]
    by_week: Counter[date] = Counter()
    for each in (each for each in counts if not each.late):
        by_week[max(this, each.on - timedelta(days=each.on.isoweekday() - 1))] += each.items
    late = sum(each.items for each in counts if each.late)
    owed = sum(each.items for each in counts if not each.late)
    soon = sum(each.items for each in counts if not each.late and each.on <= on + A_MONTH)
    most = max(1, late, *(by_week[monday] for monday in mondays))
    bars = [Bar(monday=None, items=late, high=_high(late, most=most))]
    bars += [Bar(monday=each, items=by_week[each], high=_high(by_week[each], most=most)) for each in mondays]
    return Weeks(bars=bars, late=late, soon=soon, after=owed - soon)


def _high(items: int, *, most: int) -> int:
    return max(2, items * HIGH // most) if items else 0
