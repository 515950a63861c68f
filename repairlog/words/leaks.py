"""What the list of leaks says: how a leak stands, how many are shown, and what a filter could not read."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from repairlog.records.queries.leaks import LeakRow
from repairlog.trade.area import Area
from repairlog.words import _, of_number
from repairlog.words.codes import word
from repairlog.words.days import day


def status_word(status: str) -> str:
    """A leak's status; KeyError for another code."""
    return {"open": _("Open"), "ended": _("Ended"), "opened_in_error": _("Opened in error")}[status]


def how_it_stands(status: str, *, ended_how: str, ended_on: str) -> str:
    """A leak's status, with the way and the day of its ending."""
    if status != "ended":
        return status_word(status)
    return _("{how}, {day}").format(how=word(ended_how), day=day(ended_on))


def reported(on: str, *, known: str) -> str:
    """The day of the report; said so where a list tells only the latest day that it can have been."""
    return _("on or before {day}").format(day=day(on)) if known == "on_or_before" else day(on)


def number_of(number: int) -> str:
    """So many leaks in words."""
    return of_number("{number} leak", "{number} leaks", number=number).format(number=number)


def columns(areas: Sequence[Area]) -> Mapping[str, Callable[[LeakRow], str | int]]:
    """The columns of the list where it is taken away as a file, by the word at their heads. Days stand as they are
    stored, `2026-03-05`, so that whatever reads them puts them in order. `areas`: those that the rows may be of."""
    names = {area.id: area.name for area in areas}
    return {
        _("Number"): lambda leak: leak.number,
        _("Area"): lambda leak: names.get(leak.area, ""),
        _("Grade"): lambda leak: leak.grade,
        _("House number"): lambda leak: leak.house_number,
        _("Street"): lambda leak: leak.street,
        _("Cross street"): lambda leak: leak.cross_street,
        _("Town"): lambda leak: leak.town,
        _("Where, in words"): lambda leak: leak.location,
        _("Status"): lambda leak: status_word(leak.status),
        _("Reported on"): lambda leak: leak.reported_on,
        _("How well that day is known"): lambda leak: word(leak.reported_known) if leak.reported_known else "",
        _("How it ended"): lambda leak: word(leak.ended_how) if leak.ended_how else "",
        _("Ended on"): lambda leak: leak.ended_on,
        _("Repair attempts"): lambda leak: leak.attempts,
        _("Gaps"): lambda leak: leak.gaps,
    }
