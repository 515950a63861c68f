"""When something of the demo happened, as its files tell it: so long before its own moment, or on a fixed day."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

_TOLD = re.compile(
    r"(?P<back>\d{1,4}) days? ago(?: (?P<back_time>\d\d:\d\d))?"
    r"|(?P<ahead>\d{1,4}) days? ahead"
    r"|(?P<count>\d{1,3}) (?P<unit>minutes|hours) ago"
    r"|(?P<fixed>\d{4}-\d\d-\d\d)(?: (?P<fixed_time>\d\d:\d\d))?"
    r"|(?P<same_day>\d\d:\d\d)",
    re.ASCII,
)
CLOCKS_CHANGE = (time(1), time(3))
"""In these hours of some nights a time comes twice or not at all, and any day may be such a night."""

KNOWN_BY = time(17)
"""By this hour somebody has typed what has a day and no hour."""


class DayUnclear(Exception):
    """What a file says of a day or a moment cannot be read. `facts`: `got`."""

    code = "day_unclear"

    def __init__(self, got: object) -> None:
        super().__init__(got)
        self.facts = {"got": str(got)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """`typed`: as a person types it in the area's zone. `at`: when that was, of a mere day an hour of the afternoon."""

    typed: str
    at: datetime
    on: date


def moment_told(told: object, *, zone: str, now: datetime, same_day: date | None = None) -> Moment:
    """The moment that `told` says, in that zone, seen from `now`: `12 days ago 07:52`, `12 days ago`, `40 minutes ago`,
    `2026-03-05 10:02`, `2026-03-05`, `30 days ahead`, or `07:52` of `same_day`. Raises DayUnclear."""
    said = _TOLD.fullmatch(told) if isinstance(told, str) else None
    if said is None or (said["same_day"] and same_day is None):
        raise DayUnclear(told)
    there = ZoneInfo(zone)
    if said["count"]:
        return _at(now - timedelta(**{said["unit"]: int(said["count"])}), there)
    try:
        day = _day(said, today=now.astimezone(there).date(), same_day=same_day)
        clock = said["back_time"] or said["fixed_time"] or said["same_day"]
        hour = time.fromisoformat(clock) if clock else None
    except ValueError as problem:
        raise DayUnclear(told) from problem
    if hour is None:
        return Moment(typed=day.isoformat(), at=_in_utc(day, KNOWN_BY, there), on=day)
    if CLOCKS_CHANGE[0] <= hour < CLOCKS_CHANGE[1] and not said["fixed"]:  # of a fixed night its writer knows it
        raise DayUnclear(told)
    return Moment(typed=f"{day} {hour:%H:%M}", at=_in_utc(day, hour, there), on=day)


def _day(said: re.Match[str], *, today: date, same_day: date | None) -> date:
    if said["fixed"]:
        return date.fromisoformat(said["fixed"])
    if said["same_day"] and same_day is not None:
        return same_day
    return today + timedelta(days=int(said["ahead"] or 0) - int(said["back"] or 0))


def _at(moment: datetime, there: ZoneInfo) -> Moment:
    """A moment as the clock on the wall shows it, to the minute; with its offset in the hour that comes twice."""
    local = moment.astimezone(there).replace(second=0, microsecond=0)
    twice = local.replace(fold=0).utcoffset() != local.replace(fold=1).utcoffset()
    offset = f"{local:%z}"
    typed = f"{local:%Y-%m-%d %H:%M}" + (f" {offset[:3]}:{offset[3:]}" if twice else "")
    return Moment(typed=typed, at=local.astimezone(UTC), on=local.date())


def _in_utc(day: date, hour: time, there: ZoneInfo) -> datetime:
    return datetime.combine(day, hour, there).astimezone(UTC)
