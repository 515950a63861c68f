"""The table that sealed measures name: its digest, and its sizes against Pint's own list of units."""

from decimal import Decimal, localcontext
from hashlib import sha256

import pint
import pytest

from repairlog.units import TABLE, TABLE_DIGEST, TABLE_VERSION
from repairlog.units.table import TABLE_TEXT, UNITS

PINT_NAMES = {
    "inwc": "inch_H2O_39F",
    "inHg": "inch_Hg_32F",
    "mmHg": "millimeter_Hg",
    "mmwc": "centimeter_H2O / 10",
    "ftwc": "foot_H2O",
    "osi": "force_ounce / inch ** 2",
    "kgf/cm2": "kilogram_force / centimeter ** 2",
    **{f"{unit}2": f"{unit} ** 2" for unit in ("m", "cm", "in", "ft", "yd")},
    "degC": "kelvin",
    "degF": "rankine",
    "degR": "rankine",
    "K": "kelvin",
    "h": "hour",
    "d": "day",
}
OWN_DENSITY = {"inwc", "inwc4C", "inwc60F", "inHg60F", "ftwc", "mmwc"}  # Pint takes water and mercury as measured


def test_the_table_never_changes_without_a_new_version() -> None:
    assert (TABLE_VERSION, TABLE["version"], TABLE_DIGEST, sha256(TABLE_TEXT.encode()).hexdigest()) == (
        "1",
        "1",
        "58a6407b7d1185f3a192534846d3c9d58237343c82e16c54638b5542fa0f4752",
        TABLE_DIGEST,
    )


@pytest.fixture(scope="module")
def pints_own() -> "pint.UnitRegistry[Decimal]":
    return pint.UnitRegistry(non_int_type=Decimal, cache_folder=None)


@pytest.mark.parametrize("name", sorted(set(UNITS) - OWN_DENSITY))
def test_a_unit_is_as_large_as_in_pints_own_list(name: str, pints_own: "pint.UnitRegistry[Decimal]") -> None:
    with localcontext() as context:
        context.prec = 40
        theirs = Decimal(
            (pints_own.Quantity(Decimal(1)) * pints_own.parse_expression(PINT_NAMES.get(name, name)))
            .to_base_units()
            .magnitude
        )
        ours = Decimal(UNITS[name].size.numerator) / Decimal(UNITS[name].size.denominator)
        assert abs(ours - theirs) <= ours * Decimal("1E-20")
