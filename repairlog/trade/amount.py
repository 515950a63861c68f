"""Amounts of material as people count them: a number and the unit that the item is counted in."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal

_AMOUNT = re.compile(
    r"(?:(?P<number>[0-9]{1,9}(?:\.[0-9]{1,4})?)|(?:(?P<whole>[0-9]{1,9}) )?(?P<part>[0-9])/(?P<of>[248]))"
    r"(?P<unit>(?: [^\W\d_][^\d]*)?)",
    re.ASCII,
)
_EACH = ("", "each", "ea", "pc", "pcs", "piece", "pieces")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """`unit`: what is counted, in small letters, one of it; empty where pieces are: `24`, `24 each`. `many`: how more
    than one of it was written."""

    number: Decimal
    unit: str
    many: str = field(default="", compare=False)

    def __str__(self) -> str:
        unit = self.unit if self.number == 1 else self.many or self.unit
        return f"{_plain(self.number)} {unit}".rstrip()


def amount(text: str) -> Amount | None:
    """The amount that a text says, such as `24`, `24 each`, `30 ft`, `2 boxes`, `1 1/2 cans`; None where it says no
    number, as `half a tin` does, or more than a number and a unit. Halves, quarters and eighths are read: decimals say
    them exactly."""
    match = _AMOUNT.fullmatch(" ".join(text.split()))
    if match is None:
        return None
    written = match["unit"].strip().casefold()
    unit = _one(written)
    return Amount(number=_number(match), unit=unit, many=written if written != unit and unit else "")


def _number(match: re.Match[str]) -> Decimal:
    if match["number"]:
        return Decimal(match["number"])
    return Decimal(match["whole"] or 0) + Decimal(match["part"]) / Decimal(match["of"])


def _plain(number: Decimal) -> str:
    """Without the noughts that a sum of decimals leaves at its end."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _one(unit: str) -> str:
    """The unit of one: `boxes` and `box` are counted alike."""
    if unit in _EACH:
        return ""
    for ending, instead in (("xes", "x"), ("ches", "ch"), ("ss", "ss"), ("s", "")):
        if unit.endswith(ending) and len(unit) > len(ending) + 1:
            return unit[: len(unit) - len(ending)] + instead
    return unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """`sums`: one a unit, in the order they came. `unread`: what could not be counted with them, as it was written."""

    sums: tuple[Amount, ...]
    unread: tuple[str, ...]


def total(texts: Iterable[str], *, like: str = "") -> Total:
    """What these amounts come to: those of one unit are added, and none is turned into another. `like`: an amount whose
    way of writing more than one is taken over."""
    sums: dict[str, Decimal] = {}
    first = amount(like)
    many = {first.unit: first.many} if first else {}
    unread = []
    for text in texts:
        if read := amount(text):
            sums[read.unit] = sums.get(read.unit, Decimal(0)) + read.number
            many[read.unit] = many.get(read.unit) or read.many
        elif text:
            unread.append(text)
    summed = tuple(Amount(number=n, unit=unit, many=many[unit]) for unit, n in sums.items())
    return Total(sums=summed, unread=tuple(unread))


def left(first: str, taken: Iterable[str]) -> Amount | None:
    """What should be there of `first` when these were taken; None where some of it cannot be counted, or another unit
    is named."""
    had, went = amount(first), total(taken)
    if had is None or went.unread or {each.unit for each in went.sums} - {had.unit}:
        return None
    gone = sum((each.number for each in went.sums), Decimal(0))
    return Amount(number=had.number - gone, unit=had.unit, many=had.many)
