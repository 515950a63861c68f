"""How a day stands on a screen: `31 Dec 2026`, which nobody can read the other way round."""

from __future__ import annotations

from datetime import date

from repairlog.words import _


def day(on: str) -> str:
    """The day `YYYY-MM-DD` as it is shown; ValueError for a text that is none."""
    read = date.fromisoformat(on)
    return _("{day} {month} {year}").format(day=read.day, month=_months()[read.month - 1], year=read.year)


def day_of_year(on: str) -> str:
    """The day of every year `MM-DD` as it is shown: `15 Mar`."""
    month, number = on.split("-")
    return _("{day} {month}").format(day=int(number), month=_months()[int(month) - 1])


def _months() -> tuple[str, ...]:
    return (
        _("Jan"),
        _("Feb"),
        _("Mar"),
        _("Apr"),
        _("May"),
        _("Jun"),
        _("Jul"),
        _("Aug"),
        _("Sep"),
        _("Oct"),
        _("Nov"),
        _("Dec"),
    )
