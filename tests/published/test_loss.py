"""Gas lost over a leak's life against worked cases.

Source: the cases' own arithmetic, in UTC, at 0.0192 kg/ft3.
"""

import pytest

from repairlog.figures.loss import LOSS
from tests.makers.figures import worked
from tests.makers.published import table

CASES = {row["case"]: row for row in table("leak_life_volume.csv")}
SEGMENTS = {
    "LL1": ["2 scfh, 2025-03-01T08:00 to 2025-03-31T08:00"],
    "LL3": ["120 scfh @ 60 psi, 6 h", "@ 8 psi, 18 h"],
    "LL5": ["1.2 scfh, 100 d"],
    "LL7": ["1.26 scfh, 2024-01-01T00:00 to 2025-01-01T00:00"],
}


@pytest.mark.parametrize("case", CASES)
def test_a_worked_case_comes_out(case: str) -> None:
    found = worked(LOSS, segment=SEGMENTS[case], zone="America/New_York", atmosphere="14.696 psi")
    assert found["volume_scf"] == pytest.approx(float(CASES[case]["total_scf"]), rel=1e-8)
    assert found["methane_kg"] == pytest.approx(float(CASES[case]["kg_CH4_at_0_0192"]), abs=5e-7)


def test_a_choked_leak_goes_with_the_absolute_pressure() -> None:
    # 30 scfh for 240 h, then 60 to 30 psig (44.696 / 74.696) for 120 h: 9,354.139445 scf.
    found = worked(LOSS, segment=["30 scfh @ 60 psi, 240 h", "@ 30 psi, 120 h"])
    assert found["volume_scf"] == pytest.approx(9354.139445, rel=1e-6)  # 14.696 psia is rounded from 101.325 kPa
