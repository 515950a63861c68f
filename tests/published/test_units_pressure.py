"""Pressures against published factors.

Sources: NIST Special Publication 811 (2008), appendix B.8, for conventional, 4 C and 60 F columns of water and mercury
(the 60 F factor of water from memory); definitions of pound, inch, standard gravity, atmosphere and torr for the rest.
"""

from decimal import Decimal

import pytest

from repairlog.units import convert, read
from tests.makers.published import table

WRITTEN = {
    "oz_in2": "oz/in2",
    "inwc_conv": "in wc",
    "inwc_4C": "in wc (4C)",
    "inwc_60F": "in wc (60F)",
    "inHg_conv": "in Hg",
    "inHg_60F": "in Hg (60F)",
    "mmwc_conv": "mm wc",
    "mmHg_conv": "mm Hg",
    "ft_h2o_conv": "ft wc",
    "kgf_cm2": "kgf/cm2",
}
NOT_OURS = {"inwc_68F"}  # a gauge's calibration, known from memory alone


def rows(name: str) -> list[dict[str, str]]:
    return [row for row in table(name) if row.get("unit") not in NOT_OURS]


def converted(text: str, to: str) -> Decimal:
    return convert(read(text, "pressure"), to).value


@pytest.mark.parametrize("row", rows("pressure_units.csv"), ids=lambda row: row["unit"])
@pytest.mark.parametrize(
    ("column", "to"),
    [("Pa", "Pa"), ("psi", "psi"), ("in_wc_60F", "in wc (60F)"), ("in_wc_conventional", "in wc")],
)
def test_one_of_each_unit_is_the_published_factor(row: dict[str, str], column: str, to: str) -> None:
    found = converted(f"1 {WRITTEN.get(row['unit'], row['unit'])}", to)
    printed = Decimal(row[column])
    last_place = Decimal(1).scaleb(printed.as_tuple().exponent)
    assert abs(found - printed) <= max(last_place / 2, printed * Decimal("5E-12"))


@pytest.mark.parametrize(
    "row", rows("pressure_conversion_cases.csv"), ids=lambda row: f"{row['value']} {row['from_unit']} {row['to_unit']}"
)
def test_worked_conversions_come_out_to_the_last_printed_place(row: dict[str, str]) -> None:
    text = f"{row['value']} {WRITTEN.get(row['from_unit'], row['from_unit'])}"
    found = converted(text, WRITTEN.get(row["to_unit"], row["to_unit"]))
    assert found.quantize(Decimal("1E-8")) == Decimal(row["result"])


@pytest.mark.parametrize(
    ("text", "to", "printed"),
    [
        ("1 psi", "Pa", "6894.757"),  # NIST SP 811 (2008), appendix B.8
        ("1 in wc", "Pa", "249.0889"),  # the same, inch of water, conventional
        ("1 in Hg", "Pa", "3386.389"),  # the same, inch of mercury, conventional
        ("1 torr", "Pa", "133.3224"),  # the same
    ],
)
def test_factors_as_the_standard_prints_them(text: str, to: str, printed: str) -> None:
    expected = Decimal(printed)
    assert converted(text, to).quantize(expected) == expected
