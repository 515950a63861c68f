"""What the list of leaks says: how a leak stands, how many are shown, and what a filter could not read."""

from __future__ import annotations

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


def shown(number: int, *, more: bool) -> str:
    """How many are on the page, and whether that is all of them."""
    if more:
        return of_number("{number} shown, more follow", "{number} shown, more follow", number=number).format(
            number=number
        )
    return of_number("{number} leak", "{number} leaks", number=number).format(number=number)


def filter_wrong(code: str, *, got: str) -> str:
    """What is said beside a field of the filter that could not be read; KeyError for an unknown code."""
    return {
        "not_a_day": _("“{got}” is no day of the calendar. Write it like 2026-03-05; it is left out for now."),
        "until_before_from": _("“{got}” comes before the first day; it is left out for now."),
        "no_such_area": _("There is no area “{got}” here; it is left out for now."),
        "no_such_status": _("There is no status “{got}”; it is left out for now."),
    }[code].format(got=got)
