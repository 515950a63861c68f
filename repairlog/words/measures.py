"""What is said of a measure that could not be read, converted or compared: a sentence and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_EVEN, Context

from repairlog import units
from repairlog.words import _

Facts = Mapping[str, str | list[str]]

_FOUR_DIGITS = Context(prec=4, rounding=ROUND_HALF_EVEN)
_SHOWN = {"degC": "°C", "m2": "m²"}


def sentence(code: str, facts: Facts) -> tuple[str, str]:
    """Message and hint for a complaint of `repairlog.units`, by its code and facts; KeyError for another code."""
    told = {"got": "", "would_have": "", "unit": "", "most": "", "least": ""} | _worded(facts)
    message, hint = _sentences(told)[code]
    return message.format_map(told), hint.format_map(told)


def quantity_word(quantity: str) -> str:
    """What a reader chooses a unit for; KeyError for a quantity without a choice."""
    return {
        "pressure": _("Pressure"),
        "gas": _("Gas readings"),
        "hole": _("Sizes of pipes and holes"),
        "distance": _("Distances"),
        "temperature": _("Temperatures"),
        "area": _("Areas of gas in the ground"),
    }[quantity]


def read_back(measure: units.Measure) -> str:
    """How a measure was read, `45 psi gauge, 310.3 kPa`: as understood, and in its canonical unit where that is
    another."""
    canonical = units.split_canonical(measure.canonical)
    if canonical.unit == measure.unit:
        return units.shown(measure)
    number = f"{_FOUR_DIGITS.plus(canonical.value).normalize():f}"
    return f"{units.shown(measure)}, {number} {_SHOWN.get(canonical.unit, canonical.unit)}"


def _worded(facts: Facts) -> dict[str, str]:
    names = {
        "area": _("an area"),
        "atmosphere": _("an atmospheric pressure"),
        "carbon_monoxide": _("carbon monoxide"),
        "distance": _("a distance"),
        "duration": _("a duration"),
        "elevation": _("a height above the sea"),
        "gas": _("a gas reading"),
        "hole": _("a size"),
        "hydrogen": _("hydrogen"),
        "length": _("a length"),
        "mass": _("a mass"),
        "mass rate": _("a rate of mass"),
        "methane": _("methane"),
        "pressure": _("a pressure"),
        "propane": _("propane"),
        "stress": _("a stress"),
        "temperature": _("a temperature"),
        "volume": _("a volume"),
        "volume rate": _("a rate of gas"),
    }
    named = ("other", "wanted", "named", "expected")
    plain = {name: value if isinstance(value, str) else ", ".join(value) for name, value in facts.items()}
    return {name: names.get(value, value) if name in named else value for name, value in plain.items()}


def _sentences(told: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    return {**_of_numbers(), **_of_units(), **_of_bounds(told), **_of_gas(told), **_of_conversion()}


def _of_numbers() -> dict[str, tuple[str, str]]:
    return {
        "empty": (_("Nothing was typed."), _("Write a number and its unit.")),
        "too_long": (
            _("The text is longer than {longest} characters."),
            _("Write the number and its unit here, and anything else as a note."),
        ),
        "number_unreadable": (
            _("No single number can be read in “{got}”."),
            _("Begin with one number in plain digits, such as 60, 0.25, 1,000 or 1 1/4, then its unit."),
        ),
        "comma_unclear": (
            _("The comma in “{got}” can be read in two ways."),
            _("Write a point for decimals (1.5), and a comma only before each group of three digits (1,500)."),
        ),
        "parts_unclear": (
            _("The parts of “{got}” do not fit together."),
            _("Write whole larger units first and less than one of them after, such as 6 ft 3 in or 1 h 30 min."),
        ),
        "duration_unclear": (
            _("“{got}” can be read in two ways."),
            _("Write which is meant: {would_have}."),
        ),
    }


def _of_units() -> dict[str, tuple[str, str]]:
    return {
        "unit_missing": (_("“{got}” has no unit."), _("Write which is meant, such as: {would_have}.")),
        "unit_unknown": (_("The unit “{unit}” is not known here."), _("Write one that is, such as: {would_have}.")),
        "unit_of_other_quantity": (
            _("“{unit}” measures {other}; this asks for {wanted}."),
            _("Write one of its units, such as: {would_have}."),
        ),
        "gauge_not_absolute": (
            _("“{got}” is a gauge pressure; an atmosphere is absolute."),
            _("Write what a barometer shows, such as 12.1 psi."),
        ),
    }


def _of_bounds(told: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    vacuum = _("“{got}” is below a full vacuum.")
    return {
        "below_vacuum": (
            vacuum,
            _("Look at the sign, the unit, and whether it is gauge or absolute (atmosphere: {atmosphere}).")
            if "atmosphere" in told
            else _("Look at the sign, the unit, and whether it is gauge or absolute."),
        ),
        "below_absolute_zero": (_("“{got}” is colder than can be."), _("Look at the sign and the unit.")),
        "negative": (_("“{got}” is below zero, which this cannot be."), _("Look at the sign.")),
        "too_large": (_("“{got}” is larger than is believed here ({most})."), _("Look at the digits and the unit.")),
        "elevation_out_of_range": (
            _("No standard atmosphere is worked out at {got}."),
            _("Give a height from {least} to {most}, or the atmospheric pressure itself."),
        ),
    }


def _of_gas(told: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    mismatch = (
        (_("“{got}” speaks of {named}; {expected} is asked for."), _("Choose the gas that the instrument read."))
        if "expected" in told
        else (_("“{got}” is not how {named} is read."), _("Write carbon monoxide in ppm, such as: 35 ppm CO."))
    )
    return {
        "gas_mismatch": mismatch,
        "gas_unknown": (_("The gas “{got}” is not known."), _("Choose one of: {would_have}.")),
        "lel_unknown": (
            _("A lower explosive limit of {basis} % is not one that this gas is read on."),
            _("Choose one of: {would_have}."),
        ),
        "above_hundred_percent": (_("“{got}” is more than all of the air."), _("Look at the number and the unit.")),
    }


def _of_conversion() -> dict[str, tuple[str, str]]:
    return {
        "not_convertible": (
            _("“{got}” cannot be given in {unit}."),
            _("ppm-m is summed along a path and is no concentration; carbon monoxide is read in ppm alone."),
        ),
        "not_comparable": (
            _("“{got}” cannot be compared with “{limit}”."),
            _("Give both as the same quantity of the same gas."),
        ),
        "atmosphere_needed": (
            _("“{got}” and “{limit}” are gauge and absolute."),
            _("Give the local atmosphere as well, by its pressure or by the height above the sea."),
        ),
    }
