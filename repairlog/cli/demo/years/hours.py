"""Days and hours of the years as the files of the demo tell them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta
from random import Random

from repairlog.cli.demo.days import CLOCKS_CHANGE

WEEKEND = 5
"""Saturday, as `date.weekday` counts."""

SUNDAY = 6
MONTHS = (3, 11)
"""March and November: on a Sunday of these the clocks of the demo's zones change."""


def told(moment: datetime) -> str:
    """The moment as a person types it."""
    return f"{moment:%Y-%m-%d %H:%M}"


def later(chance: Random, than: datetime, *, minutes: tuple[int, int]) -> datetime:
    """Some minutes later, never in an hour in which clocks may change."""
    return told_once(than + timedelta(minutes=chance.randint(*minutes)))


def told_once(moment: datetime) -> datetime:
    """That moment, or one some hours later where clocks may change in its hour: times there may come twice."""
    while _may_change(moment):
        moment += timedelta(hours=1)
    return moment


def _may_change(moment: datetime) -> bool:
    on_such_a_day = moment.weekday() == SUNDAY and moment.month in MONTHS
    return on_such_a_day and CLOCKS_CHANGE[0] <= moment.time() < CLOCKS_CHANGE[1]


def working_day(day: date) -> date:
    """That day, or the Monday after a weekend."""
    while day.weekday() >= WEEKEND:
        day += timedelta(days=1)
    return day


def in_working_hours(chance: Random, day: date) -> datetime:
    """A moment in which work is done by day."""
    return datetime.combine(working_day(day), time(7, 30)) + timedelta(minutes=chance.randint(0, 420))


def moments_of_a_year(
    chance: Random, *, first: date, count: int, month: Sequence[int], hour: Sequence[int]
) -> Iterator[datetime]:
    """So many moments in the year that begins on that day, by the weights of its months and hours."""
    days = [first + timedelta(days=each) for each in range(365)]
    for day in chance.choices(days, [month[day.month - 1] for day in days], k=count):
        (at,) = chance.choices(range(24), hour)
        yield told_once(datetime.combine(day, time(at, chance.randint(0, 59))))
