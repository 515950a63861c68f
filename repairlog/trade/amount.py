"""Amounts of material as people count them: a number and the unit that the item is counted in."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

_AMOUNT = re.compile(r"(?P<number>[0-9]{1,9}(?:\.[0-9]{1,4})?)(?P<unit>(?: [^\W\d_][^\d]*)?)", re.ASCII)
_EACH = ("", "each", "ea", "pc", "pcs", "piece", "pieces")


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """`unit`: what is counted, in small letters, one of it; empty where pieces are: `24`, `24 each`."""

    number: Decimal
    unit: str

    def __str__(self) -> str:
        return f"{self.number:f} {self.unit}".rstrip()


def amount(text: str) -> Amount | None:
    """The amount that a text says, such as `24`, `24 each`, `30 ft`, `2 boxes`; None where it says no number, as `half
    a tin` does, or more than a number and a unit."""
    match = _AMOUNT.fullmatch(" ".join(text.split()))
    return Amount(number=Decimal(match["number"]), unit=_one(match["unit"].strip().casefold())) if match else None


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


def total(texts: Iterable[str]) -> Total:
    """What these amounts come to: those of one unit are added, and none is turned into another."""
    sums: dict[str, Decimal] = {}
    unread = []
    for text in texts:
        if read := amount(text):
            sums[read.unit] = sums.get(read.unit, Decimal(0)) + read.number
        elif text:
            unread.append(text)
    return Total(sums=tuple(Amount(number=n, unit=u) for u, n in sums.items()), unread=tuple(unread))


def left(first: str, taken: Iterable[str]) -> Amount | None:
    """What should be there of `first` when these were taken; None where some of it cannot be counted, or another unit
    is named."""
    had, went = amount(first), total(taken)
    if had is None or went.unread or {each.unit for each in went.sums} - {had.unit}:
        return None
    return Amount(number=had.number - sum((each.number for each in went.sums), Decimal(0)), unit=had.unit)
