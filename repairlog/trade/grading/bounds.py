"""A reading against the limits of a rule: exactly, in the unit in which both were written where that is the same."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Context, Decimal
from functools import lru_cache
from operator import ge, gt, le, lt

from repairlog.trade.grading.found import Reading
from repairlog.trade.rulebook import Bound
from repairlog.units import Measure, at_least, at_most

_EXACT = Context(prec=200)

Compared = Callable[[Decimal, Decimal], bool]


@dataclass(frozen=True, slots=True)
class Limit:
    """One side of a bound. `holds`: how a reading that keeps to it stands to `value`, in `unit`."""

    holds: Compared
    value: Decimal
    unit: str


def limits_of(bound: Bound) -> tuple[Limit, ...]:
    """The sides of a rule's bound on gas; a bound without any asks for more than nothing."""
    sides = ((bound.at_least, ge), (bound.above, gt), (bound.below, lt), (bound.at_most, le))
    found = tuple(Limit(holds, side.value, side.unit) for side, holds in sides if side is not None)
    return found or (Limit(gt, Decimal(0), "%gas"),)


def within(
    readings: Sequence[Reading], limits: tuple[Limit, ...], *, lel_basis: Decimal | None = None
) -> Sequence[Reading]:
    """Those of the readings that keep to all the limits. `lel_basis`: another than theirs, to ask how they would stand
    there.

    80 %LEL is at least 80 %LEL on any basis; 3.6 % gas is 72 %LEL on 5.0 and 81.8 %LEL on 4.4.
    """
    for limit in limits:
        holds, value, unit = limit.holds, limit.value, limit.unit
        readings = [
            each
            for each in readings
            if (holds(each.value, value) if each.unit == unit else _holds(each, limit, lel_basis or each.lel_basis))
        ]
        if not readings:
            break
    return readings


def _holds(reading: Reading, limit: Limit, basis: Decimal) -> bool:
    return limit.holds(
        gas_of(reading.value, unit=reading.unit, lel_basis=basis), gas_of(limit.value, unit=limit.unit, lel_basis=basis)
    )


def edges_of(limits: Iterable[Limit], *, unit: str, lel_basis: Decimal) -> list[Decimal]:
    """The values of the limits in their order, each once, in the unit of a reading on that basis. Exactly, but for a
    limit in %gas or ppm that is no finite number of %LEL: that one to 200 digits, so no reading stands on it."""
    return sorted(
        {
            each.value
            if each.unit == unit
            else _in_unit(gas_of(each.value, unit=each.unit, lel_basis=lel_basis), unit, lel_basis)
            for each in limits
        }
    )


def _in_unit(gas: Decimal, unit: str, lel_basis: Decimal) -> Decimal:
    if unit == "%LEL":
        return _EXACT.divide(gas.scaleb(2, _EXACT), lel_basis)
    return gas.scaleb(4, _EXACT) if unit == "ppm" else gas


def samples_of(edges: Sequence[Decimal]) -> Iterator[Decimal]:
    """A value below the first edge, the edge itself, one between it and the next, and so on to one above the last."""
    before: Decimal | None = None
    for edge in edges:
        yield _EXACT.subtract(edge, 1) if before is None else _EXACT.divide(_EXACT.add(before, edge), 2)
        yield edge
        before = edge
    yield Decimal(0) if before is None else _EXACT.add(before, 1)


@lru_cache(maxsize=4096)
def gas_of(value: Decimal, *, unit: str, lel_basis: Decimal) -> Decimal:
    """Per cent by volume, exactly: a product and a shift of the decimal point."""
    if unit == "%LEL":
        return _EXACT.multiply(value, lel_basis).scaleb(-2, _EXACT)
    if unit == "ppm":
        return value.scaleb(-4, _EXACT)
    return value


def measure_within(measure: Measure, bound: Bound) -> bool:
    """Whether a measure that is no reading of gas keeps to a bound of its own quantity."""
    return (
        (bound.at_least is None or at_least(measure, bound.at_least))
        and (bound.above is None or not at_most(measure, bound.above))
        and (bound.below is None or not at_least(measure, bound.below))
        and (bound.at_most is None or at_most(measure, bound.at_most))
    )
