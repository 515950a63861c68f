"""Times of day with the zone that they are of: said once where all of a page are of one, otherwise with each time; in a
file each time has its offset."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from repairlog.words import _
from repairlog.words.days import day

_CLOCK = re.compile(r"(?<![\d:])[0-2]?\d:[0-5]\d(?!\d)")


def iso(moment: datetime | None, *, zone: str, to: str = "minutes") -> str:
    """`2026-03-03T07:44-05:00`, as clocks of that zone show it; empty where no moment is known. Source: ISO 8601-1,
    5.4.2.1, date and time of day with the shift from UTC."""
    return moment.astimezone(ZoneInfo(zone)).isoformat(timespec=to) if moment else ""


def clock(moment: datetime, *, zone: str, named: bool) -> str:
    """`07:44`; where the zone is to be named with it, `07:44 EST`."""
    local = moment.astimezone(ZoneInfo(zone))
    return f"{local:%H:%M %Z}" if named else f"{local:%H:%M}"


def day_and_hour(moment: datetime, *, zone: str, named: bool) -> str:
    """`3 Mar 2026, 07:44`; where the zone is to be named with it, `3 Mar 2026, 07:44 EST`."""
    on = moment.astimezone(ZoneInfo(zone)).date().isoformat()
    return _("{day}, {hour}").format(day=day(on), hour=clock(moment, zone=zone, named=named))


def said_once(zones: Iterable[str]) -> str:
    """Of which zone all times of a page are; empty where there are none, or of several zones."""
    found = set(zones)
    return _("Times are of {zone}.").format(zone=found.pop()) if len(found) == 1 else ""


def of_entries(zones: Iterable[str]) -> str:
    """Of which zone the times of a story are; of several, that each entry has its own."""
    found = sorted(set(zones))
    if len(found) > 1:
        return _("Times of each entry are of its area: {zones}.").format(zones=", ".join(found))
    return said_once(found)


def tells_a_time(text: str) -> bool:
    """Whether there is a time of day in it."""
    return _CLOCK.search(text) is not None


def moment_told(text: str) -> str:
    """What `iso` wrote, as it is shown: `3 Mar 2026, 07:44`."""
    on, _t, hour = text.partition("T")
    return _("{day}, {hour}").format(day=day(on), hour=hour[:5])
