"""How long after what it tells of an entry was written."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Moments, Standing, written_truly
from repairlog.entries.moments import read_moment

LONG_AFTER = timedelta(days=1)
"""An entry written later than this after what it tells is said to be: common practice, no source."""


def days_after(entry: Standing) -> int:
    """Whole days from what happened to its writing by the device's clock; 0 where it was no more than one, and for what
    an old list tells, which is always late. By the day where no hour is known: written the day after counts as one day
    at the most."""
    if entry.by["sure"] == "import" or "happened_known" in entry.understood:
        return 0
    written = written_at(entry)
    if at := entry.understood.get("happened_at"):
        after = written - read_moment(at)
        return after.days if after > LONG_AFTER else 0
    local = written.astimezone(ZoneInfo(entry.understood["zone"])).date()
    days = (local - date.fromisoformat(entry.on)).days
    return days if timedelta(days=days) > LONG_AFTER else 0


def written_at(entry: Standing) -> datetime:
    """When it was written: by the device's clock with its offset taken off, else when it was received."""
    sealed = entry.moments
    moments = Moments(received=read_moment(sealed["received"]), offset_ms=sealed.get("offset_ms"))
    return written_truly(read_moment(sealed["written"]) if "written" in sealed else None, moments)
