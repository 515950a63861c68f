"""Moments inside what was typed for a figure: on a wall clock of a zone, or with an offset of their own."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from repairlog.figures.declared import Asked, Input
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _

ZONE = Input(
    name="zone",
    kind="text",
    label=_("Zone of the moments"),
    metavar="ZONE",
    help=_("Such as America/New_York, for moments that carry no offset; else UTC."),
)


def zone_of(asked: Asked) -> ZoneInfo | None:
    """The zone that was named, or None; raises `zone_unknown`."""
    if "zone" not in asked.values:
        return None
    name = str(asked.values["zone"])
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise Unworkable("zone_unknown", field="zone", got=name[:80]) from None


def moment(text: str, *, zone: ZoneInfo | None, field: str, would_have: str) -> datetime:
    """The moment in UTC; raises where a clock on that wall never showed it, or showed it twice."""
    said = text.strip()
    try:
        found = datetime.fromisoformat(said)
    except ValueError:
        raise Unworkable("not_written_so", field=field, got=said[:80], would_have=would_have) from None
    if found.tzinfo is not None:
        return found.astimezone(UTC)
    if zone is None:
        return found.replace(tzinfo=UTC)
    earlier, later = (found.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1))
    if earlier.astimezone(zone).replace(tzinfo=None) != found:
        raise Unworkable("local_time_never", field=field, got=said[:80])
    if earlier != later:
        raise Unworkable("local_time_twice", field=field, got=said[:80])
    return earlier


def has_offset(text: str) -> bool:
    """Whether a moment that can be read carries its offset."""
    return datetime.fromisoformat(text.strip()).tzinfo is not None
