"""How units are written in the field, and which unit of ours each writing is.

A writing is looked up without blanks, full stops and hyphens in front, in lower case. A family has one table; what
differs by quantity (`7 inches` is water under pressure) is said in `unit_said`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from repairlog.units.amounts import ALL_UNITS, FAMILIES_SPELLED
from repairlog.units.quantities import QUANTITIES, Quantity


@dataclass(frozen=True, slots=True)
class UnitSaid:
    """A unit of ours, and gauge or absolute where the text says so."""

    unit: str
    basis: str = ""


def _both(first: str, second: str) -> Iterable[str]:
    return (a + b for a in first.split() for b in second.split())


_WATER = "wc wg wcg h2o water watercolumn watercol watergauge ofwater ofwatercolumn ofwc ofh2o"
_MERCURY = "hg mercury ofmercury ofhg"

_PRESSURE: dict[str, Iterable[str]] = {
    "Pa": ("pa", "pascal", "pascals"),
    "kPa": ("kpa", "kilopascal", "kilopascals"),
    "MPa": ("mpa", "megapascal", "megapascals"),
    "mbar": ("mbar", "mbars", "millibar", "millibars", "mb", "hpa"),
    "bar": ("bar", "bars"),
    "psi": (
        *("psi", "#", "lb", "lbs", "lbf", "pound", "pounds"),
        *_both("lb lbs lbf pound pounds #", "/in2 /sqin persquareinch persqin /squareinch"),
    ),
    "osi": (
        *("oz", "ozs", "ounce", "ounces", "osi", "ozsi", "ozin2"),
        *_both("oz ozs ounce ounces", "/in2 /sqin persquareinch persqin /squareinch"),
    ),
    "inwc": (*_both('in inch inches "', _WATER), "wc", "wg", "iwc", "iwg", "iwcg"),
    "ftwc": _both("ft foot feet '", _WATER),
    "mmwc": _both("mm millimeter millimeters millimetre millimetres", _WATER),
    "inHg": _both('in inch inches "', _MERCURY),
    "mmHg": _both("mm millimeter millimeters millimetre millimetres", _MERCURY),
    "torr": ("torr",),
    "atm": ("atm", "atmosphere", "atmospheres"),
    "kgf/cm2": ("kgf/cm2", "kg/cm2"),
}
_LENGTH: dict[str, Iterable[str]] = {
    "mm": ("mm", "millimeter", "millimeters", "millimetre", "millimetres"),
    "cm": ("cm", "centimeter", "centimeters", "centimetre", "centimetres"),
    "m": ("m", "meter", "meters", "metre", "metres"),
    "km": ("km", "kilometer", "kilometers", "kilometre", "kilometres"),
    "mil": ("mil", "mils", "thou"),
    "in": ("in", "ins", "inch", "inches", '"'),
    "ft": ("ft", "foot", "feet", "'"),
    "yd": ("yd", "yds", "yard", "yards"),
    "mi": ("mi", "mile", "miles"),
}
_AREA: dict[str, Iterable[str]] = {
    f"{unit}2": (
        *_both("sq square", " ".join(_LENGTH[unit])),
        *(f"{word}{two}" for word in _LENGTH[unit] for two in ("2", "^2", "squared")),
    )
    for unit in ("m", "cm", "in", "ft", "yd")
}
_AREA["ft2"] = (*_AREA["ft2"], "sf", "sqft")
_DURATION: dict[str, Iterable[str]] = {
    "s": ("s", "sec", "secs", "second", "seconds"),
    "min": ("min", "mins", "minute", "minutes", "m"),
    "h": ("h", "hr", "hrs", "hour", "hours"),
    "d": ("d", "day", "days"),
}
_TEMPERATURE: dict[str, Iterable[str]] = {
    "degC": (*_both("deg ° degree degrees", "c celsius centigrade"), "c", "celsius", "centigrade"),
    "degF": (*_both("deg ° degree degrees", "f fahrenheit"), "f", "fahrenheit"),
    "K": ("k", "kelvin", "degk", "°k"),
    "degR": ("r", "rankine", "degr", "°r"),
}


def _looked_up(spelled: Mapping[str, Iterable[str]]) -> Mapping[str, str]:
    return MappingProxyType({writing: unit for unit, writings in spelled.items() for writing in writings})


SPELLINGS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "pressure": _looked_up(_PRESSURE),
        "length": _looked_up(_LENGTH),
        "area": _looked_up(_AREA),
        "duration": _looked_up(_DURATION),
        "temperature": _looked_up(_TEMPERATURE),
        **{family: _looked_up(spelled) for family, spelled in FAMILIES_SPELLED.items()},
    }
)

# A pressure in bare inches or bare feet is a water column: common practice, no source.
_COLUMN = {"in": "inwc", "ft": "ftwc"}
# Written with a capital where it matters: millipascal and megabar are not the megapascal and the millibar.
_NOT_MEANT = re.compile(r"mPa|Mbar|MBar")

_BASIS = re.compile(r"[ (]*(gauge|gage|absolute|abs)\b\.?\)?", re.IGNORECASE)
_AT = re.compile(
    r"(?P<unit>.+?)[ (@]*(?:at )?(?P<degrees>60|39\.2|39|32|4|0) ?(?:deg|°)? ?(?P<scale>[fc])\)?", re.IGNORECASE
)
_AT_TEMPERATURE = {
    ("inwc", "60f"): "inwc60F",
    ("inwc", "4c"): "inwc4C",
    ("inwc", "39f"): "inwc4C",
    ("inwc", "39.2f"): "inwc4C",
    ("inHg", "60f"): "inHg60F",
    ("inHg", "32f"): "inHg",
    ("inHg", "0c"): "inHg",
}


def key(text: str) -> str:
    """A unit's writing as it is looked up."""
    return re.sub(r"\.(?![0-9])|[ _]", "", text.lower().strip(" -.,"))


def unit_said(text: str, quantity: Quantity) -> UnitSaid | None:
    """The unit that a text names under that quantity; None where it names none of them."""
    if quantity.family == "pressure":
        return _pressure_said(text)
    unit = SPELLINGS[quantity.family].get(key(text))
    return UnitSaid(unit) if unit in quantity.units else None


def of_other(text: str, family: str) -> str:
    """The family, other than that one, in which the text is a unit; empty where there is none."""
    if key(text) in SPELLINGS.get(family, {}):
        return ""
    return next((it for it, spelled in SPELLINGS.items() if it != family and key(text) in spelled), "")


def unit_in_family(text: str, family: str) -> UnitSaid | None:
    """The unit of the family that a text names, whether or not a field takes it."""
    widest = next(it for it in QUANTITIES.values() if it.family == family)
    if family == "pressure":
        return unit_said(text, widest)
    unit = SPELLINGS[family].get(key(text))
    return UnitSaid(unit) if unit else None


def _pressure_said(text: str) -> UnitSaid | None:
    bases = {"gauge" if word.lower().startswith("g") else "absolute" for word in _BASIS.findall(text)}
    bare = _BASIS.sub("", text).strip()
    if len(bases) > 1 or _NOT_MEANT.fullmatch(bare):
        return None
    known = _pressure_unit(bare)
    if known:
        return UnitSaid(known, next(iter(bases), ""))
    last = {"g": "gauge", "a": "absolute"}.get(key(bare.rstrip(" .)"))[-1:], "")
    known = _pressure_unit(re.sub(r"[ (]*[gaGA]\)?$", "", bare)) if last and not bases else None
    return UnitSaid(known, last) if known else None


def _pressure_unit(text: str) -> str | None:
    spelled = SPELLINGS["pressure"]
    word = key(text)
    if word in spelled:
        return spelled[word]
    column = _COLUMN.get(SPELLINGS["length"].get(word, ""))
    at = _AT.fullmatch(text) if not column else None
    if at is None:
        return column
    return _AT_TEMPERATURE.get((spelled.get(key(at["unit"]), ""), (at["degrees"] + at["scale"]).lower()))


def closest(text: str, quantity: Quantity) -> list[str]:
    """What may have been meant: units of that quantity whose writing is a slip away, as people write them."""
    word = key(text)
    near = [
        unit
        for writing, unit in SPELLINGS.get(quantity.family, {}).items()
        if unit in quantity.units and _a_slip_away(word, writing)
    ]
    return list(dict.fromkeys(ALL_UNITS[unit].shown for unit in near))


def _a_slip_away(said: str, meant: str) -> bool:
    """Whether one letter was left out, put in, changed, or two neighbours swapped; never for a single letter."""
    if min(len(said), len(meant)) < 2 or abs(len(said) - len(meant)) > 1:
        return False
    short, long = sorted((said, meant), key=len)
    start = next((i for i, (a, b) in enumerate(zip(short, long, strict=False)) if a != b), len(short))
    if len(short) < len(long):
        return short[start:] == long[start + 1 :]
    rest_same = short[start + 1 :] == long[start + 1 :]
    swapped = short[start : start + 2] == long[start : start + 2][::-1] and short[start + 2 :] == long[start + 2 :]
    return rest_same or swapped
