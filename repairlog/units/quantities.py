"""The closed list of quantities that a field may ask for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from repairlog.units.amounts import ALL_UNITS
from repairlog.units.table import CANONICAL_UNITS, UNITS, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """What a field measures.

    `family`: the kind of unit (see `repairlog.units.table.Unit`), or `gas`. `canonical`: the unit of its canonical
    text (`%gas, ppm or ppm-m` for a gas reading, which follows the reading). `units`: the names of units it is read
    in. `offers`: the units a bare number is asked about, most usual first, as people write them. `basis`: what a
    pressure is taken as where the text does not say. `most`: the largest size believed, in the canonical unit.
    `signed`: whether it may be below zero. `compound`: whether `6 ft 3 in` is one reading.
    """

    name: str
    family: str
    canonical: str
    units: tuple[str, ...]
    offers: tuple[str, ...]
    most: Decimal
    basis: str = ""
    signed: bool = False
    compound: bool = False


def _quantity(
    name: str,
    family: str,
    units: str,
    *,
    offers: str,
    most: str,
    basis: str = "",
    signed: bool = False,
    canonical: str = "",
) -> Quantity:
    return Quantity(
        name=name,
        family=family,
        canonical=canonical or CANONICAL_UNITS[name],
        units=tuple(units.split()),
        offers=tuple(offers.split(", ")),
        most=Decimal(most),
        basis=basis,
        signed=signed,
        compound=family in ("length", "duration"),
    )


_PRESSURES = " ".join(name for name, unit in UNITS.items() if unit.family == "pressure")
_LENGTHS = " ".join(name for name, unit in UNITS.items() if unit.family == "length")


def _units_of(family: str) -> str:
    return " ".join(name for name, unit in ALL_UNITS.items() if unit.family == family)


QUANTITIES: Mapping[str, Quantity] = MappingProxyType(
    {
        it.name: it
        for it in (
            _quantity(
                "pressure",
                "pressure",
                _PRESSURES,
                offers="psi, in wc, oz/in2, kPa, mbar, bar",
                most="100000",
                basis="gauge",
                signed=True,
            ),
            _quantity(
                "atmosphere", "pressure", _PRESSURES, offers="psi, kPa, mbar, in Hg", most="200", basis="absolute"
            ),
            _quantity("hole", "length", "mm cm in ft", offers="in, mm", most="100000"),
            _quantity("distance", "length", _LENGTHS, offers="ft, m", most="1000000"),
            _quantity("elevation", "length", _LENGTHS, offers="ft, m", most="11000", signed=True),
            _quantity("thickness", "length", "mil mm cm in", offers="in, mil, mm", most="1000", canonical="mm"),
            _quantity("temperature", "temperature", "degC degF K degR", offers="°F, °C", most="5000", signed=True),
            _quantity("duration", "duration", "s min h d", offers="min, h, s", most="10000000000"),
            _quantity("area", "area", "m2 cm2 in2 ft2 yd2", offers="sq ft, m2", most="1000000000"),
            _quantity("gas", "gas", "%LEL %gas ppm ppm-m", offers="%LEL, %gas, ppm, ppm-m", most="1000000000"),
            _quantity("stress", "pressure", "Pa kPa MPa bar psi", offers="psi, MPa", most="10000000", canonical="kPa"),
            _quantity(
                "volume",
                "volume",
                _units_of("volume"),
                offers="ft3, scf, m3, gal",
                most="10000000000",
                canonical="m3",
            ),
            _quantity("mass", "mass", _units_of("mass"), offers="kg, g, lb, t", most="10000000000", canonical="kg"),
            _quantity(
                "volume rate",
                "volume rate",
                _units_of("volume rate"),
                offers="scfh, Mcf/d, m3/h",
                most="1000000",
                canonical="m3/s",
            ),
            _quantity(
                "mass rate",
                "mass rate",
                _units_of("mass rate"),
                offers="g/min, kg/h",
                most="1000000",
                canonical="kg/s",
            ),
        )
    }
)


def unit_of(name: str) -> Unit:
    """The unit of that name of ours; KeyError for anything else."""
    return ALL_UNITS[name]
