"""Moments as the journal writes them: `2026-03-05T10:02:00.000Z`, and no other way."""

import re
from datetime import UTC, datetime
from typing import Final

# The hour is bounded here, since later Pythons read 24:00 as the next day's midnight: one moment, two texts.
WRITTEN: Final = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}T(?:[01][0-9]|2[0-3]):[0-9]{2}:[0-9]{2}\.[0-9]{3}Z")
"""How a moment is written."""


def moment_text(moment: datetime) -> str:
    """`moment` in UTC to the millisecond, 24 characters.

    Digits beyond the millisecond are dropped, toward the past: nothing is ever written as later than it was.
    Raises ValueError for a moment without an offset, and for one that UTC puts outside the years 1 to 9999.
    """
    if moment.utcoffset() is None:
        raise ValueError(f"{moment.isoformat()} names no zone; a moment is aware, give it its offset from UTC")
    try:
        in_utc = moment.astimezone(UTC)
    except OverflowError as problem:
        raise ValueError(f"{moment.isoformat()} lies outside the years 1 to 9999 in UTC") from problem
    return in_utc.replace(tzinfo=None).isoformat(timespec="milliseconds") + "Z"


def read_moment(text: str) -> datetime:
    """The aware UTC moment that `text` writes. Raises ValueError for any other form and for a day or hour not there."""
    if not WRITTEN.fullmatch(text):
        raise ValueError(
            f"{text!r} is no moment; one is written 2026-03-05T10:02:00.000Z: UTC, three decimals, capital Z"
        )
    try:
        return datetime.fromisoformat(text)
    except ValueError as problem:
        raise ValueError(f"{text!r} is no moment: the calendar or the clock has no such day or hour") from problem
