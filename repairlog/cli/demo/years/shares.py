"""What share of the years is what, and the chance by which one of them comes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from random import Random
from typing import Any

Shares = Mapping[str, Any]
"""The file of shares as it is written: ranges by name, in tables."""


def shares_told(folder: Path) -> Shares:
    """The shares of the file in that folder."""
    return tomllib.loads((folder / "shares.toml").read_text(encoding="utf-8"))


def one_of(chance: Random, ranges: Mapping[str, Sequence[float]]) -> str:
    """One of the names, each as often as the middle of its range says against the others'."""
    return chance.choices(list(ranges), [middle(each) for each in ranges.values()])[0]


def happens(chance: Random, share: Sequence[float] | float) -> bool:
    """Whether it happens this time; a range counts by its middle."""
    return chance.random() < (share if isinstance(share, float) else middle(share))


def middle(of: Sequence[float]) -> float:
    """Halfway between the ends of a range."""
    return (of[0] + of[1]) / 2


def days_between(chance: Random, ends: Sequence[int]) -> int:
    """A whole number of days: short ones often, long ones seldom, as work queues have it."""
    low, high = ends
    return low + round((high - low) * chance.random() ** 2)
