"""What pages say of calls: how a call stands, how long somebody waits, what a filter could not read."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from repairlog.records.queries.calls import CallRow
from repairlog.trade.area import Area
from repairlog.words import _, of_number, times
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word
from repairlog.words.days import day


def status_word(status: str) -> str:
    """A call's status; KeyError for another code."""
    return {
        "received": _("Nobody sent"),
        "sent": _("Sent"),
        "on_way": _("On the way"),
        "on_site": _("On site"),
        "ended": _("Ended"),
        "received_in_error": _("Received in error"),
    }[status]


def how_it_stands(status: str, *, outcome: str) -> str:
    """A call's status, of an ended one its outcome."""
    return word(outcome) if status == "ended" else status_word(status)


def minutes(since: datetime | None, *, at: datetime) -> str:
    """How many minutes have passed, in hours from two hours on; empty where the moment is not known."""
    if since is None:
        return ""
    passed = max(int((at - since).total_seconds() // 60), 0)
    if passed < 120:
        return of_number("{number} min", "{number} min", number=passed).format(number=passed)
    hours = passed // 60
    if hours < 48:
        return of_number("{number} hour", "{number} hours", number=hours).format(number=hours)
    days = hours // 24
    return of_number("{number} day", "{number} days", number=days).format(number=days)


def day_and_hour(moment: datetime | None, *, on: str, zone: str, named: bool = False) -> str:
    """`3 Mar 2026, 07:44` in that zone, `named` with it; the day alone where no hour is known."""
    return times.day_and_hour(moment, zone=zone, named=named) if moment else day(on)


def until(moment: datetime | None, *, at: datetime) -> str:
    """By when the next reading is to be taken, as it is at that moment; empty where nobody said."""
    if moment is None:
        return ""
    if moment < at:
        return _("next reading was to be {minutes} ago").format(minutes=minutes(moment, at=at))
    return _("next reading in {minutes}").format(minutes=minutes(at, at=moment))


def number_of(number: int) -> str:
    """So many calls in words."""
    return of_number("{number} call", "{number} calls", number=number).format(number=number)


def columns(areas: Sequence[Area]) -> Mapping[str, Callable[[CallRow], str | int]]:
    """The columns of the list where it is taken away as a file, by the word at their heads; times are those of
    each call's area, with their offset. What the caller said, and who it was, is not among them. `areas`: those that
    the rows may be of."""
    by_id = {area.id: area for area in areas}

    def local(row: CallRow, moment: datetime | None) -> str:
        return times.iso(moment, zone=by_id[row.area].zone if row.area in by_id else "UTC")

    return {
        _("Number"): lambda row: row.number,
        _("Area"): lambda row: by_id[row.area].name if row.area in by_id else "",
        _("Received on"): lambda row: row.received_on,
        _("Received at"): lambda row: local(row, row.received_at),
        _("Reported"): lambda row: word(row.report),
        _("Inside or outside"): lambda row: word(row.inside) if row.inside else "",
        _("Where"): address_of_leak,
        _("How it stands"): lambda row: how_it_stands(row.status, outcome=row.outcome),
        _("Since"): lambda row: local(row, row.since),
        _("Who"): lambda row: row.who,
        _("Leak"): lambda row: row.leak_number,
        _("Outcome accepted"): lambda row: _("yes") if row.reviewed else "",
    }
