"""What one cell says: a day, a house number before its street, a grade."""

from __future__ import annotations

import re
from datetime import date

from repairlog.intake.lists.declared import Columns

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
MONTHS_IN_FULL = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)

_DAY = re.compile(r"(\w+)[-/. ,]+(\w+)[-/. ,]+(\w+?)(?:[T ]+(\d{1,2}:\d{2}(?::\d{2})?))?", re.ASCII)
_MIDNIGHT = re.compile(r"0?0:00(:00)?")
_HOUSE = re.compile(r"(\d+[A-Za-z]?(?: ?- ?\d+[A-Za-z]?)?(?: \d/\d)?) (.*\S.*)", re.ASCII)
_GRADE = re.compile(r"\d[A-Za-z]?", re.ASCII)


class CellUnclear(Exception):
    """A cell that cannot be read. `code`, `facts`: for the sentence in `words`."""

    def __init__(self, code: str, **facts: str) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts


def read_day(cell: str, columns: Columns) -> str:
    """The day in a cell as `YYYY-MM-DD`, with the time behind it where the list gives one. Raises CellUnclear.

    Midnight is what spreadsheets write behind a day without a time, and is left out: no hour is invented.
    """
    match = _DAY.fullmatch(cell)
    if match is None:
        raise CellUnclear("day_unreadable", order=columns.order)
    day = _day_of(match.group(1, 2, 3), columns)
    time = match[4] or ""
    if not time or _MIDNIGHT.fullmatch(time):
        return day.isoformat()
    return f"{day.isoformat()} {time.zfill(5) if time.count(':') == 1 else time.zfill(8)}"


def _day_of(parts: tuple[str, ...], columns: Columns) -> date:
    order = columns.order.split()
    if (named := next((place for place, part in enumerate(parts) if _month_named(part)), None)) is not None:
        names = [name for name in order if name != "month"]
        rest = [part for place, part in enumerate(parts) if place != named]
        told = dict(zip(names, rest, strict=True)) | {"month": str(_month_named(parts[named]))}
    elif len(parts[0]) == 4:  # a year that comes first is followed by the month, whatever order days are written in
        told = dict(zip(("year", "month", "day"), parts, strict=True))
    else:
        told = dict(zip(order, parts, strict=True))
    if not all(part.isdigit() for part in told.values()) or max(len(told["day"]), len(told["month"])) > 2:
        raise CellUnclear("day_unreadable", order=columns.order)
    try:
        return date(_year(told["year"], columns), int(told["month"]), int(told["day"]))
    except ValueError:
        raise CellUnclear("no_day_in_that_order", order=columns.order) from None


def _month_named(part: str) -> int:
    """1 to 12; 0 for what is no month's name."""
    name = part.casefold()
    for names in (MONTHS, MONTHS_IN_FULL):
        if name in names:
            return names.index(name) + 1
    return 0


def _year(part: str, columns: Columns) -> int:
    if len(part) == 4:
        return int(part)
    if len(part) != 2:
        raise CellUnclear("day_unreadable", order=columns.order)
    since = columns.two_digit_years_from
    if since is None:
        raise CellUnclear("two_digit_year")
    return since + (int(part) - since) % 100


def house_and_street(cell: str) -> tuple[str, str]:
    """A house number (12, 12A, 12-14, 12 1/2) and the street behind it; no number where the cell begins with none.

    Nothing is made of a cell that may be read otherwise: all of it is then the street.
    """
    match = _HOUSE.fullmatch(" ".join(cell.split()))
    return (match[1], match[2]) if match else ("", cell)


def is_grade(cell: str) -> bool:
    """Whether it looks like a grade: a digit, with or without a letter behind it."""
    return _GRADE.fullmatch(cell) is not None
