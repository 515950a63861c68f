"""When an interval is due, counted from a day or a moment: always from the anchor itself, never step by step."""

from __future__ import annotations

from calendar import isleap
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo

from repairlog.trade.intervals.bounds import Bound, Interval
from repairlog.trade.intervals.working_days import USUAL_CALENDAR, working_days_after

HALF_MONTH_DAYS = 15
"""Half a month, which no code defines: a convention, to be stated in the rulebook that uses it."""

_LAST_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """`due_on`: the last day on which it is in time. `due_at`: the last moment (UTC), where the interval is in hours.
    `not_before`: the first day, where there is a window. `governed_by`: the bound that decided."""

    due_on: date
    governed_by: str
    due_at: datetime | None = None
    not_before: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What a bound may ask of the world around it. `calendar`: of working days. `next_round_on`: the next scheduled
    round, where one is known. `done_this_year`: how many of the year's were done, the last one counted in.
    `half_month_days`: what half a month is taken for."""

    calendar: str = USUAL_CALENDAR
    next_round_on: date | None = None
    done_this_year: int | None = None
    half_month_days: int = HALF_MONTH_DAYS


NOTHING_AROUND = Around()


def count(interval: Interval, last: date, *, around: Around = NOTHING_AROUND) -> Counted:
    """When the interval that began on `last` (a legal day) is due; that day itself is in time: "on or before".

    An interval in hours asks for the moment: `count_hours`. Of two bounds on one day the first written decides.
    Source: PHMSA PI-92-052 (1 October 1992): the interval runs to the corresponding day, on or before. Raises
    ValueError where no bound can be counted (a next round that is not known, hours without a moment), OverflowError
    past the year 9999, KeyError for a calendar that is not known.
    """
    due_on, governed_by = None, ""
    for bound in interval.bounds:
        day = _DAY_OF[bound.unit](last, bound, around)
        if day is not None and (due_on is None or day < due_on):
            due_on, governed_by = day, bound.name
    if due_on is None:
        raise ValueError(f"nothing in {interval.text!r} can be counted from a day")
    if interval.not_before is None:
        return Counted(due_on=due_on, governed_by=governed_by)
    first = _DAY_OF[interval.not_before.unit](last, interval.not_before, around)
    return Counted(due_on=due_on, governed_by=governed_by, not_before=first)


def count_from(interval: Interval, at: datetime, *, zone: tzinfo, around: Around = NOTHING_AROUND) -> Counted:
    """When the interval that began at a moment is due: days by the legal day in the zone, hours as they elapse.

    `at`: aware. Hours run on through clock changes: 24 of them from 01:30 on the day that clocks go back end at 00:30.
    Raises as `count`.
    """
    on = at.astimezone(zone).date()
    if not interval.in_hours:
        return count(interval, on, around=around)
    hours = next(bound for bound in interval.bounds if bound.unit == "hours")
    due_at = at.astimezone(UTC) + timedelta(hours=hours.amount)
    elapsed = Counted(due_on=due_at.astimezone(zone).date(), due_at=due_at, governed_by=hours.name)
    days = tuple(bound for bound in interval.bounds if bound.unit != "hours")
    if not days:
        return elapsed
    other = count(Interval(text=interval.text, bounds=days), on, around=around)
    return other if other.due_on < elapsed.due_on else elapsed


def shorter(left: Counted, new: Counted) -> Counted:
    """Of what was left before an upgrade and the new grade's own time the one that ends first; a tie is the former's.

    A moment ends before the rest of its day.
    """
    return new if _ends(new) < _ends(left) else left


def _ends(counted: Counted) -> tuple[date, bool, datetime]:
    none = datetime.max.replace(tzinfo=UTC)
    return counted.due_on, counted.due_at is None, counted.due_at or none


def months_after(day: date, months: int) -> date:
    """The corresponding day so many months later, clamped to the month's end: 31 August and 6 months is 29 February.

    Raises OverflowError past the year 9999.
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if year > 9999:
        raise OverflowError("past the year 9999")
    last = 29 if month == 1 and isleap(year) else _LAST_DAYS[month]
    return date(year, month + 1, min(day.day, last))


def _months(last: date, bound: Bound, _: Around) -> date:
    return months_after(last, bound.amount)


def _half_months(last: date, bound: Bound, around: Around) -> date:
    whole, half = divmod(bound.amount, 2)
    return months_after(last, whole) + timedelta(days=half * around.half_month_days)


def _days(last: date, bound: Bound, _: Around) -> date:
    return last + timedelta(days=bound.amount)


def _working_days(last: date, bound: Bound, around: Around) -> date:
    return working_days_after(last, amount=bound.amount, calendar=around.calendar)


def _calendar_years(last: date, bound: Bound, _: Around) -> date:
    return date(last.year + bound.amount, 12, 31)


def _times_a_year(last: date, bound: Bound, around: Around) -> date | None:
    """What is left of a year's times is due by its end, the next year's first by the next year's; where nobody says
    how many were done, the longest gap alone decides."""
    if around.done_this_year is None:
        return None
    return date(last.year + (around.done_this_year >= bound.amount), 12, 31)


def _next_round(_: date, __: Bound, around: Around) -> date | None:
    return around.next_round_on


def _hours(_: date, __: Bound, ___: Around) -> None:
    """Hours cannot be counted from a day."""


_DAY_OF: Mapping[str, Callable[[date, Bound, Around], date | None]] = {
    "months": _months,
    "half_months": _half_months,
    "days": _days,
    "working_days": _working_days,
    "hours": _hours,
    "calendar_years": _calendar_years,
    "times_a_year": _times_a_year,
    "next_round": _next_round,
}
