"""The day or moment that an interval is counted from, as it is typed on the command line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, tzinfo
from zoneinfo import ZoneInfo, available_timezones

from repairlog.cli.figure.unclear import FigureUnclear
from repairlog.intake.complaint import Complaint
from repairlog.intake.when import WRITTEN, WhenUnclear, read_when
from repairlog.words import _, complaints


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """`on`: the legal day. `at`: the moment (UTC), None where only the day was typed. `zone`: whose day it is."""

    on: date
    at: datetime | None
    zone: tzinfo


def read_anchor(text: str, *, zone: str | None) -> Anchor:
    """What was typed, in the zone of that name; without one a moment brings its offset.

    Raises FigureUnclear: no day or moment, an hour that comes twice or does not exist, a zone that is not known.
    """
    if zone is not None and zone not in available_timezones():
        raise _unclear("zone_unknown", got=zone)
    try:
        when = read_when(text, zone or "UTC")
    except WhenUnclear as unclear:
        raise _unclear(unclear.code, **unclear.facts) from None
    if zone is not None or when.at is None:
        return Anchor(on=when.on, at=when.at, zone=ZoneInfo(zone or "UTC"))
    written = WRITTEN.fullmatch(text)
    if written is None or written["offset"] is None:
        raise FigureUnclear("zone_needed", _zone_needed(text))
    there = datetime.strptime(written["offset"], "%z").tzinfo or UTC
    return Anchor(on=when.at.astimezone(there).date(), at=when.at, zone=there)


def _unclear(code: str, **facts: str | list[str]) -> FigureUnclear:
    return FigureUnclear(code, complaints.sentence(Complaint(entry=0, field="", code=code, facts=facts)))


def _zone_needed(text: str) -> tuple[str, str]:
    return (
        _("“{got}” does not say in which zone it is.").format(got=text),
        _("Add --zone, such as America/New_York, or the offset: {got}-05:00.").format(got=text),
    )
