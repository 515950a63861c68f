"""A measure on a page: as it was typed, and in another unit beside it."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, Context, Decimal

from repairlog import units
from repairlog.units import Canonical, split_canonical
from repairlog.words import _

OTHER_UNIT = {"pressure": "psi", "hole": "in", "distance": "ft", "temperature": "degF", "area": "sq ft", "gas": "%LEL"}
"""The unit beside a measure that was typed in the canonical one already."""

FULL_SCALE = 100
"""Where %LEL ends: what is above is read and spoken of in per cent gas. Common practice, no source."""

_BASIS_SAID = re.compile(r"gauge|abs|(?:psi|bar|kpa) ?\(?[ga]\b", re.IGNORECASE)
_NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_SHOWN = {"%gas": "% gas", "%LEL": "%LEL", "degC": "°C", "degF": "°F", "m2": "m²"}
_DIGITS = 3


def as_typed(typed: str, canonical: str) -> str:
    """As it was typed; of a pressure that does not say so, gauge or absolute beside it. `canonical`: empty where it
    could not be read, and was kept as text."""
    basis = split_canonical(canonical).qualifier if canonical else ""
    if basis not in ("gauge", "absolute") or _BASIS_SAID.search(typed):
        return typed
    return _("{typed} gauge").format(typed=typed) if basis == "gauge" else _("{typed} absolute").format(typed=typed)


def beside(typed: str, canonical: str, *, quantity: str, lel_basis: str, liked: str = "") -> str:
    """The same in the unit that the reader likes, else in the canonical one, or in another where it was typed in that
    one; empty where this tells nothing new, as of a zero, a duration or parts per million, and where it could not be
    read. `lel_basis`: per cent methane that counts as 100 %LEL; empty where the entry does not say."""
    if not canonical or quantity == "duration":
        return ""
    read = split_canonical(canonical)
    if read.unit.startswith("ppm") or (not read.value and quantity != "temperature"):
        return ""
    if liked and not (quantity == "gas" and (read.qualifier != "methane" or not lel_basis)):
        return _in_unit(typed, read, liked, quantity=quantity, lel_basis=lel_basis)
    if not _same_number(typed, read):
        return _shown(read.value, read.unit) + _qualified(read, lel_basis)
    if quantity == "gas" and read.qualifier == "methane" and not lel_basis:
        return ""  # nobody said what counts as 100 %LEL, and it is not guessed here
    other = _converted(read, OTHER_UNIT[quantity], quantity=quantity, lel_basis=lel_basis)
    if other[1] == "%LEL" and other[0] > FULL_SCALE:
        return ""
    return _shown(*other) + _qualified(read, lel_basis if other[1] == "%LEL" else "")


def _in_unit(typed: str, read: Canonical, unit: str, *, quantity: str, lel_basis: str) -> str:
    """In that unit; empty where it was typed in it: then the number that was typed is the one there, too."""
    value, _unit = _converted(read, unit, quantity=quantity, lel_basis=lel_basis)
    with_unit = units.read(f"{value} {unit}", quantity, gas=read.qualifier if quantity == "gas" else None)
    said = _typed_unit(typed, quantity=quantity, gas=read.qualifier if quantity == "gas" else None)
    if said == with_unit.unit:
        return ""
    return _shown(value, unit) + _qualified(read, lel_basis if unit == "%LEL" else "")


def _typed_unit(typed: str, *, quantity: str, gas: str | None) -> str:
    try:
        return units.read(typed, quantity, gas=gas).unit
    except units.NotUnderstood:
        return ""  # read once with more than this text, such as its gas


def _same_number(typed: str, read: Canonical) -> bool:
    """Whether the number that was typed is the canonical one: then it was typed in that unit."""
    found = _NUMBER.search(typed.replace(",", ""))
    return found is not None and Decimal(found[0]) == read.value and "/" not in typed


def _converted(read: Canonical, unit: str, *, quantity: str, lel_basis: str) -> tuple[Decimal, str]:
    gas = read.qualifier if quantity == "gas" else None
    basis = Decimal(lel_basis) if gas == "methane" else None
    qualifier = "" if gas else read.qualifier
    measure = units.read(f"{read.value} {read.unit} {qualifier}".strip(), quantity, gas=gas)
    return units.convert(measure, unit, lel_basis=basis).value, unit


def _qualified(read: Canonical, lel_basis: str) -> str:
    if read.qualifier == "absolute":
        return " " + _("absolute")
    methane = read.unit == "%gas" and read.qualifier == "methane"
    return _(", LEL {basis} %").format(basis=lel_basis) if methane and lel_basis not in ("", "5.0") else ""


def _shown(value: Decimal, unit: str) -> str:
    """Three significant digits, or whole numbers where that is more; plainly written out."""
    if abs(value) >= 10**_DIGITS:
        rounded = value.quantize(Decimal(1), rounding=ROUND_HALF_EVEN)
    else:
        rounded = Context(prec=_DIGITS, rounding=ROUND_HALF_EVEN).create_decimal(value)
    plain = format(rounded, "f")
    plain = plain.rstrip("0").rstrip(".") if "." in plain else plain
    return f"{plain} {_SHOWN.get(unit, unit)}"
