"""Temperatures. Source: NIST SP 811 (2008), appendix B.8: t/degC = (t/degF - 32)/1.8, and T/K = t/degC + 273.15."""

from decimal import Decimal

import pytest

from repairlog.units import convert, read
from tests.makers.published import table

TABLE = table("temperature.csv")


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['F']} F")
def test_a_temperature_is_the_same_on_all_four_scales(row: dict[str, str]) -> None:
    reading = read(f"{row['F']} F", "temperature")
    found = {scale: convert(reading, scale).value for scale in ("C", "K", "Rankine")}
    assert {scale: value.quantize(Decimal("1E-9")) for scale, value in found.items()} == {
        scale: Decimal(row[scale]).quantize(Decimal("1E-9")) for scale in found
    }
