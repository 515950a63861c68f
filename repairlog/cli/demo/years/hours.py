"""Days and hours of the years as the files of the demo tell them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta
from random import Random

from repairlog.cli.demo.days import CLOCKS_CHANGE

WEEKEND = 5
"""Saturday, as `date.weekday` counts."""


def told(moment: datetime) -> str:
    """The moment as a person types it."""
    return f"{moment:%Y-%m-%d %H:%M}"


def later(chance: Random, than: datetime, *, minutes: tuple[int, int]) -> datetime:
    """Some minutes later, never in the hours in which clocks change."""
    moment = than + timedelta(minutes=chance.randint(*minutes))
    while CLOCKS_CHANGE[0] <= moment.time() < CLOCKS_CHANGE[1]:
        moment += timedelta(hours=1)
    return moment


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
        yield datetime.combine(day, time(at, chance.randint(0, 59)))
