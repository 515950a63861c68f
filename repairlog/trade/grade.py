"""Ranks of grade codes that need no rulebook to be understood."""

from __future__ import annotations

USUAL_RANKS = {"1": 1, "2": 2, "3": 3}
"""The three grades of North American practice, 1 the most hazardous. Common practice, no source: a rulebook that an
area adopts says its own codes and ranks."""


def rank_of(code: str, *, given: int | None) -> int | None:
    """The rank of a grade code: the one that whoever brought it gave, else the usual one; None where neither is."""
    return given if given is not None else USUAL_RANKS.get(code)
