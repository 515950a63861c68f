"""A log of temperatures, read from the text of a CSV file."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import repeat
from math import isfinite
from zoneinfo import ZoneInfo

from repairlog.figures.asked import in_unit, read_as
from repairlog.figures.moments import has_offset, moment
from repairlog.trade.unworkable import Unworkable
from repairlog.words import figures

MOST_READINGS = 2_000_000
WOULD_HAVE = "0.5,21.5 (hours, °C) or 2026-03-05T10:00,70 F, a line a reading"
_BEGINS = re.compile(r"\s*\"?[-+.]?[0-9]")
_NOT_CELSIUS = {"f", "°f", "degf", "fahrenheit", "k", "kelvin", "r", "rankine"}


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperatureLog:
    """`hours`: elapsed, from wherever the log counts; `celsius`: the reading from then on. `moments`: whether the file
    gave moments without an offset."""

    hours: list[float]
    celsius: list[float]
    moments: bool


def read_log(text: str, *, zone: ZoneInfo | None) -> TemperatureLog:
    """The readings of a CSV text, a head before them or none, `hours,temperature` or `moment,temperature`; semicolons
    and tabs part its cells too.

    A bare number is hours, and degC; a cell may carry its unit. Raises `log_line` for a line that cannot be read,
    `log_of_other_unit` where the head names other units for bare numbers, `log_too_short`.
    """
    lines = text.lstrip("\ufeff").splitlines()
    if (numbers := _bare(lines)) and not _named(lines[0]):
        return TemperatureLog(hours=numbers[0::2], celsius=numbers[1::2], moments=False)
    head, rows = _rows(lines)
    if not rows:
        raise Unworkable("log_too_short", field="log")
    if len(rows) > MOST_READINGS:
        raise Unworkable("too_many", field="log", most=f"{MOST_READINGS:,}")
    _check_head(head, rows)
    celsius = [_cell(it.second, at=it.line, quantity="temperature", unit="degC") for it in rows]
    if "-" in rows[0].first.strip()[1:]:
        return _by_moments(rows, celsius, zone=zone)
    hours = [_cell(it.first, at=it.line, quantity="duration", unit="h") for it in rows]
    return TemperatureLog(hours=hours, celsius=celsius, moments=False)


@dataclass(frozen=True, slots=True)
class _Row:
    line: int
    first: str
    second: str


def _rows(lines: list[str]) -> tuple[list[str], list[_Row]]:
    """The cells of the last line of the head, and the readings with their lines; blank lines are passed over."""
    first = next((line for line in lines if _BEGINS.match(line)), "")
    comma = next((each for each in ("\t", ";") if each in first), ",")
    head: list[str] = []
    found: list[_Row] = []
    for number, row in enumerate(csv.reader(lines, delimiter=comma), start=1):
        cells = [cell.strip() for cell in row]
        if not any(cells):
            continue
        is_reading = len(cells) >= 2 and _BEGINS.match(cells[0])
        if not found and not is_reading:
            head = cells
        elif len(cells) < 2 or not all(cells[:2]):
            raise Unworkable("log_line", field="log", got=str(number), other=WOULD_HAVE)
        else:
            found.append(_Row(number, cells[0], cells[1]))
    return head, found


def _check_head(head: list[str], rows: list[_Row]) -> None:
    """Raises `log_of_other_unit` where bare numbers stand under a head that names another unit than hours and degC."""
    named = _named(",".join(head[:2]))
    for word, cell in zip(named, (rows[0].first, rows[0].second), strict=False):
        if word and _number(cell) is not None:
            raise Unworkable("log_of_other_unit", field="log", got=word)


def _named(head: str) -> tuple[str, ...]:
    """What the two cells of a head say of a unit that bare numbers are not taken in; empty for each that says none."""
    cells = [*re.split(r"[,;\t]", head), ""][:2]
    words = [set(re.findall(r"[a-z°]+", cell.lower())) for cell in cells]
    others = ({"min", "mins", "minute", "minutes", "s", "sec", "second", "seconds", "d", "day", "days"}, _NOT_CELSIUS)
    found = tuple(next(iter(said & other), "") for said, other in zip(words, others, strict=False))
    return found if any(found) else ()


def _cell(cell: str, *, at: int, quantity: str, unit: str) -> float:
    """The cell as hours or degC; raises `log_line`."""
    number = _number(cell)
    if number is not None:
        return number
    try:
        return in_unit(read_as(cell, quantity, field="log"), unit=unit)
    except Unworkable as complaint:
        message, _hint = figures.sentence(complaint.code, complaint.facts)
        raise Unworkable("log_line", field="log", got=str(at), other=message) from None


def _bare(lines: list[str]) -> list[float] | None:
    """All numbers of a log of two bare numbers a line, a head before them or not; None for any other.

    A year of readings a minute is read in one go so, in a quarter of the time.
    """
    head = 1 if lines and not any(map(str.isdigit, lines[0])) else 0
    body = lines[head:]
    if not body or len(body) > MOST_READINGS or set(map(str.count, body, repeat(","))) != {1}:
        return None
    return _numbers(",".join(body).split(","))


def _by_moments(rows: list[_Row], celsius: list[float], *, zone: ZoneInfo | None) -> TemperatureLog:
    found = [moment(it.first, zone=zone, field="log", would_have=WOULD_HAVE) for it in rows]
    bare = zone is None and any(not has_offset(it.first) for it in rows)
    return TemperatureLog(hours=[(it - found[0]).total_seconds() / 3600 for it in found], celsius=celsius, moments=bare)


def _number(cell: str) -> float | None:
    """A bare number, or None."""
    found = _numbers((cell,))
    return found[0] if found else None


def _numbers(cells: Sequence[str]) -> list[float] | None:
    """Bare numbers, all of them, or None."""
    try:
        found = list(map(float, cells))
    except ValueError:
        return None
    return found if all(map(isfinite, found)) else None
