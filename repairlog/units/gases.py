"""Gas readings: which gas, in which unit, on which lower explosive limit.

Parts per million times metre (`ppm-m`) is what a laser sums along its path: never a concentration. Carbon monoxide
is read in ppm alone and is never the gas that leaks.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from repairlog.units.complaint import complaint
from repairlog.units.spellings import key
from repairlog.units.table import LELS

GASES = ("methane", "carbon_monoxide", "propane", "hydrogen")
STANDARD_LEL = Decimal("5.0")

_NAMED: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("methane", "ch4", "naturalgas", "natgas", "ng"), "methane"),
        **dict.fromkeys(("carbonmonoxide", "co"), "carbon_monoxide"),
        **dict.fromkeys(("propane", "c3h8"), "propane"),
        **dict.fromkeys(("hydrogen", "h2"), "hydrogen"),
    }
)
_WRITTEN: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("%lel", "lel", "lel%", "%oflel", "%ofthelel", "%lfl"), "%LEL"),
        **dict.fromkeys(("%gas", "%gasinair", "%gas/air", "%byvolume", "%volume", "%vol", "vol%", "%v/v"), "%gas"),
        **dict.fromkeys(("ppm", "ppmv", "partspermillion"), "ppm"),
        **dict.fromkeys(("ppm-m", "ppmm", "ppm.m", "ppm*m", "ppmxm", "ppm-meter", "ppm-meters", "ppm-metre"), "ppm-m"),
        "%": "%",
    }
)
_BASIS = re.compile(
    r"\(\s*(?:lel|basis)?\s*=?\s*([0-9](?:\.[0-9]{1,2})?)\s*%?\s*(?:lel|basis)?\s*\)\s*$", re.IGNORECASE
)
_PER_CENT = re.compile(r"per ?cent|pct\.?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class GasSaid:
    """What the text after the number says: unit (`%` where it leaves open of what), gas and LEL, if it names them."""

    unit: str
    gas: str
    lel: Decimal | None


def gas_said(text: str) -> GasSaid | None:
    """The unit, gas and LEL basis that a text names; None where no unit is known in it."""
    basis = _BASIS.search(text)
    body = _PER_CENT.sub("%", text[: basis.start()] if basis else text)
    word = key(body)
    if re.fullmatch(r"ppm m", body.strip(), re.IGNORECASE):
        return None  # metres or methane: asked, never guessed
    for cut in range(len(word), 0, -1):
        unit, name = _WRITTEN.get(word[:cut]), word[cut:].removeprefix("of").strip("()")
        if unit and (not name or name in _NAMED):
            return GasSaid(unit, _NAMED.get(name, ""), Decimal(basis[1]) if basis else None)
    return None


def is_gas_unit(text: str) -> bool:
    """Whether a text names a unit of a gas reading."""
    said = gas_said(text)
    return said is not None and said.unit != "%"


def gas_of(said: str, *, given: str | None, got: str) -> str:
    """The gas of a reading: the one the text names, else the one given, else methane; raises `gas_mismatch`."""
    if given and given not in GASES:
        raise complaint("gas_unknown", got=given, would_have=GASES)
    if said and given and said != given:
        raise complaint("gas_mismatch", got=got, named=said, expected=given)
    return said or given or "methane"


def lel_of(gas: str, *, basis: Decimal, got: str) -> Decimal:
    """The LEL (per cent by volume) that a reading of that gas stands on; raises `lel_unknown`.

    Methane stands on the basis asked for, 5.0 or 4.4; propane and hydrogen have one published limit each.
    """
    known = LELS[gas]
    if len(known) == 1:
        return known[0]
    match = next((it for it in known if it == basis), None)
    if match is None:
        raise complaint("lel_unknown", got=got, basis=str(basis), would_have=[str(it) for it in known])
    return match


def per_cent_gas(value: Fraction, *, unit: str, lel: Decimal | None) -> Fraction:
    """A concentration as per cent by volume. `lel`: needed for `%LEL`; `ppm-m` is none (ValueError)."""
    if unit == "%LEL" and lel is not None:
        return value * Fraction(lel) / 100
    if unit == "ppm":
        return value / 10_000
    if unit == "%gas":
        return value
    raise ValueError(unit)


def from_per_cent(value: Fraction, *, unit: str, lel: Decimal | None) -> Fraction:
    """Per cent by volume as `%LEL` on that limit, `%gas` or `ppm`."""
    return value / per_cent_gas(Fraction(1), unit=unit, lel=lel)
