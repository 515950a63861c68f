"""The local atmosphere against tables. Source: U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562), geometric heights."""

from decimal import Decimal

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from repairlog.units import atmosphere_at
from tests.makers.published import table

TABLE = table("altitude_pressure.csv")


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['elev_ft']} ft")
def test_the_atmosphere_at_a_height_is_that_of_the_table(row: dict[str, str]) -> None:
    pascals = atmosphere_at(Decimal(row["elev_m"])) * 1000
    assert abs(pascals - Decimal(row["P_US76_geometric_Pa"])) <= Decimal("0.0006")


@pytest.mark.parametrize("metres", [-1000, -304.8, 0, 1609.344, 5000, 11000])
def test_an_independent_standard_atmosphere_agrees(metres: float) -> None:
    # Source: the library fluids, its own code of the same standard.
    assert float(atmosphere_at(Decimal(str(metres)))) * 1000 == pytest.approx(ATMOSPHERE_1976(metres).P, rel=1e-8)


@pytest.mark.parametrize(
    ("metres", "pascals"),
    [("1000", "89876.3"), ("2000", "79501.4"), ("5000", "54048.3"), ("10000", "26499.9")],
)
def test_round_heights_are_those_printed_in_the_standard(metres: str, pascals: str) -> None:
    # Source: the standard's main table, printed as 8.9876 E+2 mb and so on; from memory.
    assert (atmosphere_at(Decimal(metres)) * 1000).quantize(Decimal("0.1")) == Decimal(pascals)
