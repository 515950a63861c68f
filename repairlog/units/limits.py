"""A measure against a limit.

Both are taken exactly (as typed, by the exact sizes of the table, with fractions) and neither is rounded: 60 psi is
at most 60 psi, 16 oz is at most 1 psi, and 413.685438 kPa is not at most 60 psi, which is 413.68543759... kPa. So no
doubtful case is left to be rounded to the safe side. A measure read back from its canonical text has nine digits;
one that stands nearer to the limit than that may then fall on either side: compare what was typed.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from repairlog.units.complaint import complaint
from repairlog.units.conversion import on_basis
from repairlog.units.measure import Measure, amount


def at_most(measure: Measure, limit: Measure, *, atmosphere: Decimal | None = None) -> bool:
    """Whether the measure is the limit or below it. `atmosphere`: kPa absolute, for gauge against absolute.

    Raises `not_comparable` (other quantity or gas, or `ppm-m` with a concentration) and `atmosphere_needed`.
    """
    found, allowed = _both(measure, limit, atmosphere=atmosphere)
    return found <= allowed


def at_least(measure: Measure, limit: Measure, *, atmosphere: Decimal | None = None) -> bool:
    """Whether the measure is the limit or above it; otherwise as `at_most`."""
    found, asked = _both(measure, limit, atmosphere=atmosphere)
    return found >= asked


def _both(measure: Measure, limit: Measure, *, atmosphere: Decimal | None) -> tuple[Fraction, Fraction]:
    found, bound = amount(measure), amount(limit)
    same = (measure.quantity, measure.gas, found.unit) == (limit.quantity, limit.gas, bound.unit)
    if not same:
        raise complaint("not_comparable", got=measure.typed, limit=limit.typed)
    if measure.basis != limit.basis:
        if atmosphere is None:
            raise complaint("atmosphere_needed", got=measure.typed, limit=limit.typed)
        found = on_basis(found, measure, basis=limit.basis, atmosphere=atmosphere)
    return found.exact, bound.exact
