"""What is said of instruments: how a calibration stands, and what a filter could not read."""

from __future__ import annotations

from repairlog.words import _, of_number
from repairlog.words.days import day


def standing_word(standing: str) -> str:
    """How a calibration stands; KeyError for an unknown code."""
    return {
        "valid": _("Calibrated"),
        "ends_soon": _("Due soon"),
        "out": _("Out of calibration"),
        "never": _("No calibration on the books"),
    }[standing]


def standing_told(standing: str, *, until_on: str, result: str) -> str:
    """The same with its day."""
    if standing == "out" and result == "out_of_tolerance":
        return _("Out of tolerance when it was last calibrated")
    said = {
        "valid": _("calibrated until {day}") if until_on else _("calibrated, no last day on the certificate"),
        "ends_soon": _("due by {day}"),
        "out": _("out of calibration since {day}"),
        "never": _("no calibration on the books"),
    }[standing]
    return said.format(day=day(until_on) if until_on else "")


def shown(number: int, *, more: bool) -> str:
    """How many are on the page, and whether that is all of them."""
    if more:
        return _("{number} shown, more follow").format(number=number)
    return of_number("{number} instrument", "{number} instruments", number=number).format(number=number)


def filter_wrong(code: str, *, got: str) -> str:
    """What is said beside a field of the filter that could not be read; KeyError for an unknown code."""
    return {
        "not_a_day": _("“{got}” is no day of the calendar. Write it like 2026-03-05; today is taken for now."),
        "no_such_area": _("There is no area “{got}” here; it is left out for now."),
        "not_one_of_these": _("“{got}” is none of these; it is left out for now."),
    }[code].format(got=got)
