"""A measure in another unit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from repairlog.units.complaint import complaint
from repairlog.units.exact import rounded
from repairlog.units.gases import STANDARD_LEL, from_per_cent, gas_said, is_gas_unit, lel_of
from repairlog.units.measure import Amount, Measure, amount, canonical_text
from repairlog.units.quantities import QUANTITIES, unit_of
from repairlog.units.reading import STANDARD_ATMOSPHERE
from repairlog.units.signs import as_typed, plainly
from repairlog.units.spellings import of_other, unit_in_family, unit_said

CONVERTED_DIGITS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Converted:
    """`value`: twelve significant digits, half to even, in `unit` (a name of ours). `basis`, `gas`, `lel_basis`: as in
    `Measure`. `canonical`: the canonical text of what it was converted to (absolute, where that was asked)."""

    value: Decimal
    unit: str
    basis: str
    gas: str
    lel_basis: Decimal | None
    canonical: str


def convert(
    measure: Measure, to: str, *, atmosphere: Decimal = STANDARD_ATMOSPHERE, lel_basis: Decimal | None = None
) -> Converted:
    """The measure in the unit that the text `to` names; raises `NotUnderstood`.

    `to` may say gauge or absolute (`psia`), and keeps the measure's own where it does not. `atmosphere`: kPa absolute.
    `lel_basis`: per cent by volume, for a result in %LEL of methane; None keeps the measure's own, else 5.0.
    """
    asked = plainly(as_typed(to))
    if QUANTITIES[measure.quantity].family == "gas":
        return _gas(measure, asked, lel_basis=lel_basis)
    family = QUANTITIES[measure.quantity].family
    said = unit_in_family(asked, family)
    if said is None:
        raise _unknown(asked, family, measure)
    basis = said.basis or measure.basis
    found = on_basis(amount(measure), measure, basis=basis, atmosphere=atmosphere)
    if basis == "absolute" and found.exact < 0:
        raise complaint("below_vacuum", got=measure.typed, atmosphere=f"{atmosphere} kPa absolute")
    here, there = unit_of(found.unit), unit_of(said.unit)
    exact = (found.exact - Fraction(here.zero)) * here.size / there.size + Fraction(there.zero)
    return Converted(
        value=rounded(exact, digits=CONVERTED_DIGITS),
        unit=said.unit,
        basis=basis,
        gas="",
        lel_basis=None,
        canonical=canonical_text(found, qualifier=basis),
    )


def on_basis(it: Amount, measure: Measure, *, basis: str, atmosphere: Decimal) -> Amount:
    """A pressure's amount (kPa) as gauge or absolute, at an atmosphere in kPa absolute; others unchanged."""
    if basis == measure.basis:
        return it
    shift = Fraction(atmosphere) if basis == "absolute" else -Fraction(atmosphere)
    return Amount(it.exact + shift, it.unit)


def _gas(measure: Measure, asked: str, *, lel_basis: Decimal | None) -> Converted:
    said = gas_said(asked)
    if said is None or said.unit == "%":
        raise _unknown(asked, "gas", measure)
    if said.gas and said.gas != measure.gas:
        raise complaint("gas_mismatch", got=asked, named=said.gas, expected=measure.gas)
    found = amount(measure)
    only_itself = "ppm-m" in (measure.unit, said.unit) or measure.gas == "carbon_monoxide"
    if only_itself and said.unit != measure.unit:
        raise complaint("not_convertible", got=measure.typed, unit=asked)
    lel = None
    if said.unit == "%LEL":
        wanted = said.lel or lel_basis or measure.lel_basis or STANDARD_LEL
        lel = lel_of(measure.gas, basis=wanted, got=asked)
    exact = found.exact if only_itself else from_per_cent(found.exact, unit=said.unit, lel=lel)
    return Converted(
        value=rounded(exact, digits=CONVERTED_DIGITS),
        unit=said.unit,
        basis="",
        gas=measure.gas,
        lel_basis=lel,
        canonical=measure.canonical,
    )


def _unknown(asked: str, family: str, measure: Measure) -> Exception:
    offers = QUANTITIES[measure.quantity].offers
    other = of_other(asked, family) or ("gas" if is_gas_unit(asked) and family != "gas" else "")
    if other:
        return complaint(
            "unit_of_other_quantity", got=asked, unit=asked, other=other, wanted=measure.quantity, would_have=offers
        )
    return complaint("unit_unknown", got=asked, unit=asked, would_have=offers)


def quantities_of(unit: str) -> tuple[str, ...]:
    """The quantities that have the unit which the text names, nearest first: `mm` a hole, then a distance.

    Empty where it names none; raises `too_long`, `empty`.
    """
    asked = plainly(as_typed(unit))
    return tuple(
        it.name
        for it in QUANTITIES.values()
        if it.name not in ("atmosphere", "elevation", "stress")  # a pressure and a distance say the same and ask less
        and (is_gas_unit(asked) if it.family == "gas" else unit_said(asked, it) is not None)
    )
