"""Temperatures. Source: NIST SP 811 (2008), appendix B.8: t/degC = (t/degF - 32)/1.8, and T/K = t/degC + 273.15."""

import csv
from decimal import Decimal
from pathlib import Path

import pytest

from repairlog.units import convert, read

TABLE = Path(__file__).parent / "values" / "temperature.csv"


def rows() -> list[dict[str, str]]:
    with TABLE.open(newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['F']} F")
def test_a_temperature_is_the_same_on_all_four_scales(row: dict[str, str]) -> None:
    reading = read(f"{row['F']} F", "temperature")
    found = {scale: convert(reading, scale).value for scale in ("C", "K", "Rankine")}
    assert {scale: value.quantize(Decimal("1E-9")) for scale, value in found.items()} == {
        scale: Decimal(row[scale]).quantize(Decimal("1E-9")) for scale in found
    }
