"""A day or a moment as people type it, in an area's zone: `YYYY-MM-DD[ HH:MM[:SS]][ +-HH:MM]`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from zoneinfo import ZoneInfo

WRITTEN = re.compile(
    r"(?P<day>\d{4}-\d{2}-\d{2})"
    r"(?:[ T](?P<hour>\d{2}):(?P<minute>\d{2})(?::(?P<second>\d{2}))?(?: ?(?P<offset>[+-]\d{2}:\d{2}|Z))?)?",
    re.ASCII,
)
"""How a day or a moment is written; groups by what they hold."""

EARLIEST_YEAR, LATEST_YEAR = 1800, 2999
FUTURE = timedelta(hours=1)
"""How far ahead of the server's clock a moment may lie, after the device's offset is taken off, and still be read."""


class WhenUnclear(Exception):
    """What was typed is no day or moment, or leaves open which. `code`, `facts`: for the sentence in `words`."""

    def __init__(self, code: str, **facts: str | list[str]) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts


@dataclass(frozen=True, slots=True)
class When:
    """`on`: legal day in the zone. `at`: the moment in UTC and `offset` (`-05:00`) then in force, None and empty where
    only the day is known."""

    on: date
    at: datetime | None = None
    offset: str = ""


def read_when(text: str, zone: str) -> When:
    """What was typed, in that zone. Raises WhenUnclear: unreadable, no such day or hour, an hour that comes twice."""
    match = WRITTEN.fullmatch(text)
    if match is None:
        raise WhenUnclear("when_unreadable", got=text)
    try:
        day = date.fromisoformat(match["day"])
    except ValueError:
        raise WhenUnclear("no_such_day", got=text) from None
    if not EARLIEST_YEAR <= day.year <= LATEST_YEAR:
        raise WhenUnclear("year_out_of_range", got=text, least=str(EARLIEST_YEAR), most=str(LATEST_YEAR))
    if match["hour"] is None:
        return When(day)
    try:
        local = datetime.combine(day, time(int(match["hour"]), int(match["minute"]), int(match["second"] or 0)))
    except ValueError:
        raise WhenUnclear("no_such_hour", got=text) from None
    at = _with_offset(local, match["offset"], got=text) if match["offset"] else _in_zone(local, zone, got=text)
    return moment_in(at, zone)


def moment_in(at: datetime, zone: str) -> When:
    """A moment with its legal day and the offset then in force in that zone."""
    there = at.astimezone(ZoneInfo(zone))
    return When(there.date(), at.astimezone(UTC), _offset_text(there))


def as_typed(at: datetime, zone: str) -> str:
    """The minute of that moment as a person in the zone types it; with the offset in the hour that clocks repeat."""
    there = at.astimezone(ZoneInfo(zone))
    local = f"{there:%Y-%m-%d %H:%M}"
    try:
        read_when(local, zone)
    except WhenUnclear:
        return f"{local} {_offset_text(there)}"
    return local


def _with_offset(local: datetime, offset: str, *, got: str) -> datetime:
    if offset == "Z":
        return local.replace(tzinfo=UTC)
    hours, minutes = int(offset[1:3]), int(offset[4:6])
    if hours > 14 or minutes > 59:
        raise WhenUnclear("offset_unreadable", got=got)
    ahead = timedelta(hours=hours, minutes=minutes)
    return local.replace(tzinfo=timezone(ahead if offset[0] == "+" else -ahead))


def _in_zone(local: datetime, zone: str, *, got: str) -> datetime:
    """The one moment that a local time means; clocks that go forward skip some, clocks that go back repeat some."""
    info = ZoneInfo(zone)
    first, second = local.replace(tzinfo=info, fold=0), local.replace(tzinfo=info, fold=1)
    if first.utcoffset() == second.utcoffset():
        return first
    if first.astimezone(UTC).astimezone(info).replace(tzinfo=None) != local:
        raise WhenUnclear("hour_does_not_exist", got=got)
    raise WhenUnclear("hour_comes_twice", got=got, would_have=[_offset_text(first), _offset_text(second)])


def _offset_text(there: datetime) -> str:
    """`-05:00`; the seconds of zones of long ago are dropped."""
    offset = there.utcoffset() or timedelta()
    minutes = int(abs(offset).total_seconds()) // 60
    return f"{'-' if offset < timedelta() else '+'}{minutes // 60:02d}:{minutes % 60:02d}"


def is_in_the_future(when: When, *, now: datetime, offset_ms: int | None, zone: str) -> bool:
    """Whether it lies more than an hour after `now` (the server's clock), and still does with the device's offset taken
    off: the time may have been read from that device or from a clock that is right."""
    latest = now + FUTURE
    if when.at is None:
        return when.on > latest.astimezone(ZoneInfo(zone)).date()
    return when.at - timedelta(milliseconds=max(offset_ms or 0, 0)) > latest
