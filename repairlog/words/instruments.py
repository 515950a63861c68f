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


def number_of(number: int) -> str:
    """So many instruments in words."""
    return of_number("{number} instrument", "{number} instruments", number=number).format(number=number)
