"""Reading a measure as a person typed it, under the quantity that the field asks for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from repairlog.units.atmosphere import atmosphere_at
from repairlog.units.complaint import NotUnderstood, complaint
from repairlog.units.exact import CANONICAL_DIGITS, plain, rounded
from repairlog.units.gases import STANDARD_LEL, gas_of, gas_said, is_gas_unit, lel_of
from repairlog.units.measure import Amount, Measure, amount_of, canonical_text
from repairlog.units.numbers import Head, number_first
from repairlog.units.quantities import QUANTITIES, Quantity, unit_of
from repairlog.units.signs import as_typed, plainly
from repairlog.units.spellings import closest, of_other, unit_said
from repairlog.units.table import US76

STANDARD_ATMOSPHERE = US76["pressure_pa"] / 1000
"""101.325 kPa absolute, taken where no other atmosphere is given."""

ABSOLUTE_ZERO_C = Fraction("-273.15")

_CLOCK = re.compile(r"[0-9]{1,3}:[0-9]{2}(?::[0-9]{2})?(?: .*)?")
_PIECE = re.compile(r"[^0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    value: Decimal
    unit: str
    basis: str = ""
    gas: str = ""
    lel_basis: Decimal | None = None


def read(
    text: str,
    quantity: str,
    *,
    gas: str | None = None,
    lel_basis: Decimal = STANDARD_LEL,
    atmosphere: Decimal = STANDARD_ATMOSPHERE,
) -> Measure:
    """The measure that `text` says under a quantity of `QUANTITIES` (KeyError for another name).

    `gas`: the gas the field speaks of; None leaves it to the text, and to methane where that names none.
    `lel_basis`: per cent by volume, for a %LEL reading of methane whose text does not say it.
    `atmosphere`: kPa absolute, which a gauge pressure cannot fall below.
    Raises `NotUnderstood`; any text whatever gives one or the other, at once.
    """
    wanted = QUANTITIES[quantity]
    typed = as_typed(text)
    plain_text = plainly(typed)
    if not plain_text:
        raise complaint("empty")
    if wanted.family == "gas":
        said = _gas_reading(plain_text, got=typed, gas=gas, lel_basis=lel_basis)
    else:
        said = _reading(plain_text, wanted, got=typed)
    found = amount_of(Fraction(said.value), unit=said.unit, quantity=quantity, gas=said.gas, lel_basis=said.lel_basis)
    _check(found, said, wanted, got=typed, atmosphere=atmosphere)
    return Measure(
        typed=typed,
        value=said.value,
        unit=said.unit,
        basis=said.basis,
        gas=said.gas,
        lel_basis=said.lel_basis,
        quantity=quantity,
        canonical=canonical_text(found, qualifier=said.basis or said.gas),
    )


def _reading(text: str, wanted: Quantity, *, got: str) -> _Said:
    if wanted.family == "duration" and _CLOCK.fullmatch(text):
        raise complaint("duration_unclear", got=got, would_have=_clock_readings(text))
    head = number_first(text, got=got)
    said = unit_said(head.rest, wanted) if head.rest else None
    if said is not None:
        if wanted.name == "atmosphere" and said.basis == "gauge":
            raise complaint("gauge_not_absolute", got=got)
        return _Said(value=head.value, unit=said.unit, basis=said.basis or wanted.basis)
    compound = _compound(text, wanted, got=got) if wanted.compound else None
    if compound is not None:
        return compound
    raise _unit_complaint(head.rest, wanted, number=_number_said(text, head), got=got)


def _compound(text: str, wanted: Quantity, *, got: str) -> _Said | None:
    """`6 ft 3 in`, `5' 6"`, `1 h 30 min`: in the smallest unit said; None where the text is built otherwise."""
    parts: list[tuple[Decimal, str]] = []
    rest = text
    while rest and len(parts) < 4:
        head = number_first(rest, got=got)
        piece = _PIECE.match(head.rest)
        word = re.sub(r"(?:[ ,]+(?:and|&))?[ ,-]*$", "", piece[0], flags=re.IGNORECASE) if piece else ""
        said = unit_said(word, wanted)
        if said is None:
            if parts and not head.rest:
                raise complaint("unit_missing", got=got, would_have=[f"{text} {_next_smaller(parts[-1][1], wanted)}"])
            return None
        parts.append((head.value, said.unit))
        rest = head.rest[piece.end() :] if piece else ""
    return _summed(parts, got=got) if len(parts) > 1 and not rest else None


def _summed(parts: list[tuple[Decimal, str]], *, got: str) -> _Said:
    total, smallest = Fraction(0), unit_of(parts[-1][1])
    negative = parts[0][0] < 0
    for place, (value, name) in enumerate(parts):
        size = unit_of(name).size
        whole = place == len(parts) - 1 or value == value.to_integral_value()
        fits = place == 0 or (Fraction(abs(value)) * size < unit_of(parts[place - 1][1]).size and not value.is_signed())
        if not (whole and fits):
            raise complaint("parts_unclear", got=got)
        total += Fraction(abs(value)) * size / smallest.size
    value = rounded(total, digits=40)
    return _Said(value=-value if negative else value, unit=smallest.name)


def _next_smaller(unit: str, wanted: Quantity) -> str:
    sizes = sorted((unit_of(it).size, it) for it in wanted.units)
    return {"ft": "in", "yd": "ft", "m": "cm"}.get(unit) or next(
        (name for size, name in reversed(sizes) if size < unit_of(unit).size), unit
    )


def _clock_readings(text: str) -> list[str]:
    first, second = text.split(" ")[0].split(":")[:2]
    return [f"{first} h {second} min", f"{first} min {second} s"]


def _gas_reading(text: str, *, got: str, gas: str | None, lel_basis: Decimal) -> _Said:
    head = number_first(text, got=got)
    said = gas_said(head.rest) if head.rest else None
    number = _number_said(text, head)
    if said is None:
        offers = [f"{number} ppm CO"] if gas == "carbon_monoxide" else None
        raise _unit_complaint(head.rest, QUANTITIES["gas"], number=number, got=got, offers=offers)
    which = gas_of(said.gas, given=gas, got=got)
    unit = "%gas" if said.unit == "%" else said.unit
    if which == "carbon_monoxide" and unit != "ppm":
        raise complaint("gas_mismatch", got=got, named=which)
    if said.unit == "%" and not said.gas:
        raise complaint("unit_missing", got=got, would_have=[f"{number} %LEL", f"{number} %gas"])
    if unit != "%LEL":
        if said.lel is not None:
            raise complaint("unit_unknown", got=got, unit=head.rest, would_have=[f"{number} %LEL ({said.lel})"])
        return _Said(value=head.value, unit=unit, gas=which)
    lel = lel_of(which, basis=lel_basis if said.lel is None else said.lel, got=got)
    if said.lel is not None and said.lel != lel:
        raise complaint("lel_unknown", got=got, basis=str(said.lel), would_have=[str(lel)])
    return _Said(value=head.value, unit=unit, gas=which, lel_basis=lel)


def _number_said(text: str, head: Head) -> str:
    """The number in the person's own words where it stands first, else written out."""
    before = text.removesuffix(head.rest).strip(" -") if head.rest else text
    return before if before != text.strip(" -") or not head.rest else plain(head.value)


def _unit_complaint(
    rest: str, wanted: Quantity, *, number: str, got: str, offers: list[str] | None = None
) -> NotUnderstood:
    offers = offers or [f"{number} {unit}" for unit in wanted.offers]
    if not rest:
        return complaint("unit_missing", got=got, would_have=offers)
    if wanted.family == "temperature" and rest.lower().strip(" .") in ("°", "deg", "degree", "degrees"):
        return complaint("unit_missing", got=got, would_have=offers)
    other = of_other(rest, wanted.family) or ("gas" if wanted.family != "gas" and is_gas_unit(rest) else "")
    if other:
        return complaint(
            "unit_of_other_quantity", got=got, unit=rest, other=other, wanted=wanted.name, would_have=offers
        )
    near = [f"{number} {unit}" for unit in closest(rest, wanted)]
    return complaint("unit_unknown", got=got, unit=rest, would_have=near or offers)


def _check(found: Amount, said: _Said, wanted: Quantity, *, got: str, atmosphere: Decimal) -> None:
    """Raises where no such thing can be: below vacuum, below absolute zero, below nothing, more than all, where no
    atmosphere is worked out."""
    if wanted.family == "pressure":
        floor = -Fraction(atmosphere) if said.basis == "gauge" else Fraction(0)
        if found.exact < floor or (wanted.name == "atmosphere" and found.exact == 0):
            raise complaint("below_vacuum", got=got, atmosphere=f"{atmosphere} kPa absolute")
    elif wanted.family == "temperature" and found.exact < ABSOLUTE_ZERO_C:
        raise complaint("below_absolute_zero", got=got)
    elif found.exact < 0 and not wanted.signed:
        raise complaint("negative", got=got)
    if wanted.family == "gas" and found.exact > {"%gas": 100, "ppm": 1_000_000}.get(found.unit, found.exact):
        raise complaint("above_hundred_percent", got=got)
    if wanted.name == "elevation":
        atmosphere_at(rounded(found.exact, digits=CANONICAL_DIGITS))  # a height is asked for the atmosphere there
    if abs(found.exact) > Fraction(wanted.most):
        unit = said.unit if wanted.family == "gas" else wanted.canonical
        raise complaint("too_large", got=got, most=f"{wanted.most} {unit}")
