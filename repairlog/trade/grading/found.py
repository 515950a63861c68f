"""What was found at a leak, as far as a grade may hang on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from repairlog.units import STANDARD_LEL, Measure

NOT_A_CONCENTRATION = "ppm-m"
"""What a laser sums along its path: it cannot set a grade, whatever it reads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place looked at. `counts_as`: those of `PLACES` that it is, several where the word for it leaves open which.
    `owner`: one of `OWNERS`, empty where not known. `distance`: from a building's outside wall, None where not said."""

    counts_as: frozenset[str] = frozenset()
    owner: str = ""
    distance: Measure | None = None


NOWHERE = Spot()


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """`key`: its own within the visit. `value` in `unit` (`%LEL`, `%gas`, `ppm`); `lel_basis`: what 100 %LEL is where
    the two are compared. `kind`: sustained, peak, empty where not said."""

    key: str
    value: Decimal
    unit: str
    gas: str = "methane"
    kind: str = ""
    lel_basis: Decimal = STANDARD_LEL
    spot: Spot = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """`spots`: every place looked at. `said`: those of `SAID` that hold. `answers`: of `ASSUMED`, what somebody
    answered. `grade`: the code that a person gave, for rules that hang on it; empty where nobody did."""

    readings: tuple[Reading, ...] = ()
    spots: tuple[Spot, ...] = ()
    said: frozenset[str] = frozenset()
    answers: Mapping[str, bool] = field(default_factory=dict)
    extent: Measure | None = None
    percent_smys: Decimal | None = None
    class_location: str = ""
    grade: str = ""


def reading_of(measure: Measure, *, key: str, kind: str = "", spot: Spot = NOWHERE, lel_basis: Decimal) -> Reading:
    """The reading of a measure of gas. `lel_basis`: that of its area, for a reading that is not itself in %LEL."""
    return Reading(
        key=key,
        value=measure.value,
        unit=measure.unit,
        gas=measure.gas,
        kind=kind,
        lel_basis=measure.lel_basis or lel_basis,
        spot=spot,
    )
