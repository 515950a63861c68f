"""What an interval is made of: bounds, of which the first to come decides."""

from __future__ import annotations

from dataclasses import dataclass

CALENDAR_YEAR = "calendar year"
"""The name of the bound that a calendar year sets: its last day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """So many of a unit. `unit`: months, half_months, days, working_days, hours, calendar_years, times_a_year or
    next_round. `amount`: of half_months how many months and half months together (9 for 4.5 months); of times_a_year
    how many times in each calendar year. `name`: what `governed_by` says where this bound decides."""

    unit: str
    amount: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """`text`: as the code writes it. `bounds`: of which the first to come decides. `not_before`: the earliest, where
    there is a window. `in_hours`: whether the hour counts."""

    text: str
    bounds: tuple[Bound, ...]
    not_before: Bound | None = None

    @property
    def in_hours(self) -> bool:
        """Whether a bound is counted in hours, so that a moment is needed and a moment is due."""
        return any(bound.unit == "hours" for bound in self.bounds)
