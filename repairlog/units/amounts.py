"""Amounts of gas and how fast it goes: volumes, masses and rates, and the thickness of tape, for figures alone.

No field of an entry asks for one, so they stand outside the table that sealed measures name, whose digest never
changes. A cubic foot here is a size; at which base pressure and temperature it is counted is the figure's to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from types import MappingProxyType

from repairlog.units.registry import size
from repairlog.units.table import UNITS, Unit

HOURS_IN_A_YEAR = 8760
"""In every year, leap years too, as the accounting of greenhouse gases takes it."""

_THICKNESSES = {"mil": ("0.001 * inch", "mil mils thou")}
_VOLUMES = {
    "m3": ("meter ** 3", "m3 cum cubicmeter cubicmeters cubicmetre cubicmetres m^3 sm3 scm nm3"),
    "L": ("0.001 * meter ** 3", "l liter liters litre litres"),
    "in3": ("inch ** 3", "in3 cuin cubicinch cubicinches in^3"),
    "gal": ("231 * inch ** 3", "gal gallon gallons"),
    "ft3": ("foot ** 3", "ft3 cuft cubicfoot cubicfeet ft^3 cf"),
    "scf": ("foot ** 3", "scf standardcubicfeet standardcubicfoot"),
    "Ccf": ("100 * foot ** 3", "ccf"),
    "Mcf": ("1000 * foot ** 3", "mcf mscf"),
    "MMcf": ("1000000 * foot ** 3", "mmcf mmscf"),
}
_MASSES = {
    "g": ("0.001 * kilogram", "g gram grams"),
    "kg": ("kilogram", "kg kilogram kilograms"),
    "t": ("1000 * kilogram", "t tonne tonnes metricton metrictons"),
    "lb": ("0.45359237 * kilogram", "lb lbs lbm pound pounds"),
}
_TIMES = {
    "s": (Decimal(1), "s sec second"),
    "min": (Decimal(60), "min minute"),
    "h": (Decimal(3600), "h hr hour"),
    "d": (Decimal(86_400), "d day"),
    "yr": (Decimal(HOURS_IN_A_YEAR * 3600), "yr y year a"),
}
_RUN_TOGETHER = {
    "scf/h": "scfh cfh",
    "scf/min": "scfm cfm",
    "scf/d": "scfd cfd",
    "Mcf/h": "mcfh mscfh",
    "Mcf/d": "mcfd mscfd",
    "MMcf/d": "mmcfd mmscfd",
    "L/min": "lpm slpm",
}


def _amounts(family: str, sizes: Mapping[str, tuple[str, str]]) -> dict[str, Unit]:
    return {
        name: Unit(name=name, family=family, over=size(over), under=Decimal(1), zero=Decimal(0), shown=name)
        for name, (over, _spelled) in sizes.items()
    }


def _rates(family: str, amounts: Mapping[str, Unit]) -> dict[str, Unit]:
    return {
        f"{it.name}/{time}": Unit(
            name=f"{it.name}/{time}",
            family=family,
            over=it.over,
            under=seconds,
            zero=Decimal(0),
            shown=f"{it.name}/{time}",
        )
        for it in amounts.values()
        for time, (seconds, _spelled) in _TIMES.items()
    }


def _spelled(sizes: Mapping[str, tuple[str, str]]) -> dict[str, Iterable[str]]:
    return {name: spelled.split() for name, (_size, spelled) in sizes.items()}


def _rates_spelled(sizes: Mapping[str, tuple[str, str]]) -> dict[str, Iterable[str]]:
    return {
        f"{name}/{time}": [
            *(f"{amount}{over}{word}" for amount in spelled.split() for over in ("/", "per") for word in words.split()),
            *_RUN_TOGETHER.get(f"{name}/{time}", "").split(),
        ]
        for name, (_size, spelled) in sizes.items()
        for time, (_seconds, words) in _TIMES.items()
    }


_OF_LENGTH = _amounts("length", _THICKNESSES)
_OF_VOLUME, _OF_MASS = _amounts("volume", _VOLUMES), _amounts("mass", _MASSES)
ALL_UNITS: Mapping[str, Unit] = MappingProxyType(
    {
        **UNITS,
        **_OF_LENGTH,
        **_OF_VOLUME,
        **_OF_MASS,
        **_rates("volume rate", _OF_VOLUME),
        **_rates("mass rate", _OF_MASS),
    }
)
"""Every unit by its name: those of the sealed table first, then those that figures alone have."""

FAMILIES_SPELLED: Mapping[str, Mapping[str, Iterable[str]]] = MappingProxyType(
    {
        "volume": _spelled(_VOLUMES),
        "mass": _spelled(_MASSES),
        "volume rate": _rates_spelled(_VOLUMES),
        "mass rate": _rates_spelled(_MASSES),
    }
)
"""How the units of each of these families are written, as `repairlog.units.spellings` looks them up."""
