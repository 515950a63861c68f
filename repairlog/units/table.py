"""The conversion table: every unit with its exact size, and the digest by which a sealed entry names it.

A size is a quotient of two decimals that end (a psi is 4.4482216152605 N over 0.00064516 m2), so conversions are
exact and only the last step rounds. The digest may never change without a new version.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from repairlog.units.registry import size

TABLE_VERSION = "1"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit: `size` in the SI unit of its family, `zero` the reading that stands where the family's zero is.

    `family`: pressure (Pa), length (m), area (m2), duration (s), temperature (counted from 0 degC).
    `shown`: how the unit is written back to people.
    """

    name: str
    family: str
    over: Decimal
    under: Decimal
    zero: Decimal
    shown: str

    @property
    def size(self) -> Fraction:
        """The exact size of one unit."""
        return Fraction(self.over) / Fraction(self.under)


def _unit(name: str, family: str, over: str, *, under: str = "", zero: str = "0", shown: str = "") -> Unit:
    return Unit(
        name=name,
        family=family,
        over=size(over),
        under=size(under) if under else Decimal(1),
        zero=Decimal(zero),
        shown=shown or name,
    )


_ALL = (
    _unit("Pa", "pressure", "pascal"),
    _unit("kPa", "pressure", "1000 * pascal"),
    _unit("MPa", "pressure", "1000000 * pascal"),
    _unit("mbar", "pressure", "100 * pascal"),
    _unit("bar", "pressure", "100000 * pascal"),
    _unit("psi", "pressure", "pound_force", under="inch ** 2"),
    _unit("osi", "pressure", "pound_force", under="16 * inch ** 2", shown="oz/in2"),
    _unit("inwc", "pressure", "inch * water", shown="in wc"),
    _unit("inwc4C", "pressure", "inch * water_4C", shown="in wc (4C)"),
    _unit("inwc60F", "pressure", "inch * water_60F", shown="in wc (60F)"),
    _unit("ftwc", "pressure", "foot * water", shown="ft wc"),
    _unit("mmwc", "pressure", "0.001 * meter * water", shown="mm wc"),
    _unit("inHg", "pressure", "inch * mercury", shown="in Hg"),
    _unit("inHg60F", "pressure", "inch * mercury_60F", shown="in Hg (60F)"),
    _unit("mmHg", "pressure", "0.001 * meter * mercury", shown="mm Hg"),
    _unit("torr", "pressure", "atmosphere", under="760"),
    _unit("atm", "pressure", "atmosphere"),
    _unit("kgf/cm2", "pressure", "kilogram_force", under="0.0001 * meter ** 2"),
    _unit("mm", "length", "0.001 * meter"),
    _unit("cm", "length", "0.01 * meter"),
    _unit("m", "length", "meter"),
    _unit("km", "length", "1000 * meter"),
    _unit("in", "length", "inch"),
    _unit("ft", "length", "foot"),
    _unit("yd", "length", "yard"),
    _unit("mi", "length", "mile"),
    _unit("m2", "area", "meter ** 2"),
    _unit("cm2", "area", "0.0001 * meter ** 2"),
    _unit("in2", "area", "inch ** 2"),
    _unit("ft2", "area", "foot ** 2"),
    _unit("yd2", "area", "yard ** 2"),
    _unit("s", "duration", "second"),
    _unit("min", "duration", "minute"),
    _unit("h", "duration", "hour"),
    _unit("d", "duration", "day"),
    _unit("degC", "temperature", "kelvin", shown="°C"),
    _unit("degF", "temperature", "kelvin", under="1.8", zero="32", shown="°F"),
    _unit("K", "temperature", "kelvin", zero="273.15"),
    _unit("degR", "temperature", "kelvin", under="1.8", zero="491.67", shown="°R"),
)
UNITS: Mapping[str, Unit] = MappingProxyType({unit.name: unit for unit in _ALL})

# Lower explosive limits, per cent by volume in air. Methane 5.0: NFPA 325/497 and ISO 10156; 4.4: IEC 60079-20-1.
# Propane 2.1 and hydrogen 4.0: NFPA 497 (from memory; the NIOSH Pocket Guide prints the same for propane).
LELS: Mapping[str, tuple[Decimal, ...]] = MappingProxyType(
    {
        "methane": (Decimal("5.0"), Decimal("4.4")),
        "propane": (Decimal("2.1"),),
        "hydrogen": (Decimal("4.0"),),
    }
)

# U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562), table 2 and equations 18 and 33a: sea level, lapse rate, radius.
US76: Mapping[str, Decimal] = MappingProxyType(
    {
        "pressure_pa": Decimal("101325"),
        "temperature_k": Decimal("288.15"),
        "lapse_k_per_m": Decimal("0.0065"),
        "gravity_m_per_s2": Decimal("9.80665"),
        "molar_mass_kg_per_kmol": Decimal("28.9644"),
        "gas_constant_j_per_kmol_k": Decimal("8314.32"),
        "radius_m": Decimal("6356766"),
    }
)

CANONICAL_UNITS: Mapping[str, str] = MappingProxyType(
    {
        "area": "m2",
        "atmosphere": "kPa",
        "distance": "m",
        "duration": "s",
        "elevation": "m",
        "gas": "%gas, ppm or ppm-m",
        "hole": "mm",
        "pressure": "kPa",
        "temperature": "degC",
    }
)


def _written(unit: Unit) -> dict[str, str]:
    return {
        "family": unit.family,
        "over": format(unit.over.normalize(), "f"),
        "under": format(unit.under.normalize(), "f"),
        "zero": format(unit.zero, "f"),
    }


TABLE: Mapping[str, object] = MappingProxyType(
    {
        "version": TABLE_VERSION,
        "canonical": dict(CANONICAL_UNITS),
        "digits": "9, half even",
        "inch_of_water": "inwc",
        "lel_percent": {gas: [str(value) for value in values] for gas, values in LELS.items()},
        "standard_atmosphere": {name: str(value) for name, value in US76.items()},
        "units": {unit.name: _written(unit) for unit in _ALL},
    }
)
TABLE_TEXT = json.dumps(dict(TABLE), sort_keys=True, separators=(",", ":"), ensure_ascii=True)
TABLE_DIGEST = hashlib.sha256(TABLE_TEXT.encode("ascii")).hexdigest()
