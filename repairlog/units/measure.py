"""A measure: as typed, as understood, and its canonical text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from repairlog.units.exact import canonical_number, plain, rounded
from repairlog.units.gases import per_cent_gas
from repairlog.units.quantities import QUANTITIES, unit_of

_SHOWN_DIGITS = 12
_CANONICAL = re.compile(r"(?P<number>-?[0-9]{1,60}(?:\.[0-9]{1,60})?) (?P<unit>[^ ]+)(?: (?P<qualifier>[^ ]+))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What a person typed and what was understood.

    `typed`: as typed, without blanks around it. `value`, `unit`: as understood, in a unit of ours (`psi`, `inwc`,
    `%LEL`). `basis`: `gauge`, `absolute`, or empty where it is no pressure. `gas`: methane, carbon_monoxide, propane,
    hydrogen, or empty. `lel_basis`: per cent by volume, for a reading in `%LEL` alone. `canonical`: what is sealed.
    """

    typed: str
    value: Decimal
    unit: str
    basis: str
    gas: str
    lel_basis: Decimal | None
    quantity: str
    canonical: str


@dataclass(frozen=True, slots=True)
class Canonical:
    """A canonical text in its parts; `qualifier` is gauge, absolute, a gas, or empty."""

    value: Decimal
    unit: str
    qualifier: str


@dataclass(frozen=True, slots=True)
class Amount:
    """An exact number in its canonical unit."""

    exact: Fraction
    unit: str


def amount_of(value: Fraction, *, unit: str, quantity: str, gas: str = "", lel_basis: Decimal | None = None) -> Amount:
    """The exact amount, in the canonical unit of the quantity, of so many of a unit of ours."""
    wanted = QUANTITIES[quantity]
    if wanted.family != "gas":
        here, there = unit_of(unit), unit_of(wanted.canonical)
        return Amount((value - Fraction(here.zero)) * here.size / there.size + Fraction(there.zero), wanted.canonical)
    if unit == "ppm-m" or gas == "carbon_monoxide":
        return Amount(value, unit)
    return Amount(per_cent_gas(value, unit=unit, lel=lel_basis), "%gas")


def amount(measure: Measure) -> Amount:
    """The exact amount of a measure, from the value as understood and not from the rounded canonical text."""
    return amount_of(
        Fraction(measure.value),
        unit=measure.unit,
        quantity=measure.quantity,
        gas=measure.gas,
        lel_basis=measure.lel_basis,
    )


def canonical_text(it: Amount, *, qualifier: str) -> str:
    """`310.264078 kPa gauge`: nine significant digits, half to even, plain, then unit and qualifier."""
    return f"{canonical_number(it.exact)} {it.unit} {qualifier}".rstrip()


@lru_cache(maxsize=4096)  # the same few pressures and sizes come over and over
def split_canonical(text: str) -> Canonical:
    """The parts of a canonical text; ValueError where it is none."""
    match = _CANONICAL.fullmatch(text)
    if match is None or plain(Decimal(match["number"])) != match["number"]:
        raise ValueError(f"not a canonical measure: {text[:80]!r}")
    return Canonical(Decimal(match["number"]), match["unit"], match["qualifier"] or "")


def shown(measure: Measure) -> str:
    """How a reading is shown back: `7 inches` under pressure as `7 in wc gauge`; it can be read again."""
    number = plain(rounded(Fraction(measure.value), digits=_SHOWN_DIGITS))
    unit = measure.unit if measure.gas else unit_of(measure.unit).shown
    lel = f"(LEL {measure.lel_basis} %)" if measure.lel_basis is not None else ""
    return " ".join(filter(None, (number, unit, measure.basis or measure.gas.replace("_", " "), lel)))
