"""Gas readings on both published limits of methane.

Sources: 5.0 % by volume, NFPA 325 and 497 and ISO 10156; 4.4 % by volume, IEC 60079-20-1 (both from secondary text).
"""

from decimal import Decimal

import pytest

from repairlog.units import convert, read, split_canonical
from tests.makers.published import table

TABLE = table("lel_conversion.csv")
OTHER = {"5.0": "4.4", "4.4": "5.0"}


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['pct_LEL']} of {row['LEL_basis_pct_vol']}")
def test_a_reading_in_lel_is_the_published_share_of_gas(row: dict[str, str]) -> None:
    basis = row["LEL_basis_pct_vol"]
    reading = read(f"{row['pct_LEL']} %LEL", "gas", lel_basis=Decimal(basis))
    other = convert(reading, f"%LEL ({OTHER[basis]})").value
    assert (
        split_canonical(reading.canonical).value,
        convert(reading, "ppm").value,
        other.quantize(Decimal("1E-4")),
    ) == (Decimal(row["pct_gas"]), Decimal(row["ppm"]), Decimal(row["pct_LEL_on_other_basis"]))
