"""A log of temperatures, read from the text of a CSV file."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import repeat
from math import isfinite
from zoneinfo import ZoneInfo

from repairlog.figures.asked import in_unit, read_as
from repairlog.figures.moments import moment
from repairlog.trade.unworkable import Unworkable

MOST_READINGS = 2_000_000
WOULD_HAVE = "0.5,21.5 (hours, °C) or 2026-03-05T10:00,70 F, a line a reading"


@dataclass(frozen=True, slots=True, kw_only=True)
class TemperatureLog:
    """`hours`: elapsed, from wherever the log counts; `celsius`: the reading from then on. `moments`: whether the file
    gave moments without an offset."""

    hours: list[float]
    celsius: list[float]
    moments: bool


def read_log(text: str, *, zone: ZoneInfo | None) -> TemperatureLog:
    """The readings of a CSV text, a head line or none, `hours,temperature` or `moment,temperature`.

    A bare number is hours, and degC; a cell may carry its unit. Raises `not_written_so` with the line, and what a
    measure or a moment raises.
    """
    lines = text.lstrip("\ufeff").splitlines()
    if numbers := _bare(lines):
        return TemperatureLog(hours=numbers[0::2], celsius=numbers[1::2], moments=False)
    rows = [(row[0], row[1]) for row in csv.reader(lines) if len(row) >= 2]
    if len(rows) > MOST_READINGS:
        raise Unworkable("too_many", field="log", most=f"{MOST_READINGS:,}")
    if rows and _is_head(rows[0]):
        del rows[0]
    if not rows:
        raise Unworkable("log_too_short", field="log")
    firsts, seconds = zip(*rows, strict=True)
    celsius = _numbers(seconds) or [_celsius(cell) for cell in seconds]
    hours = _numbers(firsts)
    if hours is not None:
        return TemperatureLog(hours=hours, celsius=celsius, moments=False)
    if any("-" in cell.lstrip()[1:] for cell in firsts[:1]):
        return _by_moments(firsts, celsius, zone=zone)
    return TemperatureLog(hours=[_hours(cell) for cell in firsts], celsius=celsius, moments=False)


def _bare(lines: list[str]) -> list[float] | None:
    """All numbers of a log of two bare numbers a line, a head before them or not; None for any other.

    A year of readings a minute is read in one go so, in a quarter of the time.
    """
    head = 1 if lines and not any(map(str.isdigit, lines[0])) else 0
    body = lines[head:]
    if not body or len(body) > MOST_READINGS or set(map(str.count, body, repeat(","))) != {1}:
        return None
    return _numbers(",".join(body).split(","))


def _by_moments(cells: tuple[str, ...], celsius: list[float], *, zone: ZoneInfo | None) -> TemperatureLog:
    found = [moment(cell, zone=zone, field="log", would_have=WOULD_HAVE) for cell in cells]
    bare = zone is None and not any(mark in cells[0][10:] for mark in ("+", "-", "Z"))
    return TemperatureLog(hours=[(it - found[0]).total_seconds() / 3600 for it in found], celsius=celsius, moments=bare)


def _is_head(row: tuple[str, str]) -> bool:
    return not any(char.isdigit() for cell in row for char in cell)


def _numbers(cells: Sequence[str]) -> list[float] | None:
    """Bare numbers, all of them, or None."""
    try:
        found = list(map(float, cells))
    except ValueError:
        return None
    return found if all(map(isfinite, found)) else None


def _celsius(cell: str) -> float:
    number = _numbers((cell,))
    return number[0] if number else in_unit(read_as(cell, "temperature", field="log"), unit="degC")


def _hours(cell: str) -> float:
    number = _numbers((cell,))
    return number[0] if number else in_unit(read_as(cell, "duration", field="log"), unit="h")
