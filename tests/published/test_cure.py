"""Cure by table and by log, against worked tables.

Sources: the tables' own arithmetic by three rules (an invented table of a material); equivalent age and
temperature-time factor as in ASTM C1074 and by Nurse and Saul; printed checks have their source beside them.
"""

import json
from math import exp

import pytest
from scipy.interpolate import interp1d

from repairlog.figures.cure import CURE
from repairlog.trade import cure
from tests.makers.figures import refused, worked
from tests.makers.published import table

TABLE = "40 F: 48 h, 50 F: 24 h, 60 F: 12 h, 70 F: 6 h, 85 F: 3 h, 100 F: 2 h"
RULES = {"linear": "linear_h", "log": "log_linear_h", "next-lower": "conservative_step_h"}
HISTORIES = table("maturity_histories.csv")
FACTORS = table("equivalent_age_factors.csv")


def as_log(steps: str) -> str:
    """A history of (hours, degC) as the CSV that a logger writes."""
    lines, at, temperature = ["hours,temperature"], 0.0, 0.0
    for hours, temperature in json.loads(steps):
        lines.append(f"{at:g},{temperature}")
        at += hours
    return "\n".join([*lines, f"{at:g},{temperature}"])


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("row", table("cure_table_interpolation.csv"), ids=lambda row: f"{row['T_F']} F")
def test_a_table_is_read_between_its_rows_and_never_beyond(row: dict[str, str], rule: str) -> None:
    typed = {"table": TABLE, "temperature": f"{row['T_F']} F", "rule": rule}
    if row[RULES[rule]] == "OUT_OF_RANGE":
        assert refused(CURE, **typed) == [("temperature", "outside_table")]
    else:
        assert worked(CURE, **typed)["hours"] == pytest.approx(float(row[RULES[rule]]), abs=6e-9, rel=1e-9)


def test_an_independent_interpolation_agrees() -> None:
    # SciPy, straight between rows.
    rows = ((4.0, 48.0), (10.0, 24.0), (16.0, 12.0), (21.0, 6.0))
    theirs = interp1d([cold for cold, _hours in rows], [hours for _cold, hours in rows])
    for tenth in range(40, 211):
        ours = cure.hours_at(tenth / 10, table=rows, rule=cure.LINEAR)
        assert ours == pytest.approx(float(theirs(tenth / 10)), rel=1e-12)


def test_an_hour_counts_by_the_tabled_factor_and_not_by_one_with_zero_at_273() -> None:
    # A column of the table holds what comes out where 273 stands for 273.15: it must not come out here.
    for row in FACTORS:
        found = worked(
            CURE,
            log=f"hours,temperature\n0,{row['T_C']}\n1,{row['T_C']}",
            reference=f"{row['Ts_C']} C",
            q=row["Q_K"],
        )["equivalent_hours"]
        assert found == pytest.approx(float(row["age_factor"]), abs=6e-9)
        same = row["T_C"] == row["Ts_C"].removesuffix(".0")
        assert same or abs(found - float(row["age_factor_with_273"])) > 1e-6


@pytest.mark.parametrize("row", HISTORIES, ids=lambda row: f"{row['history'][:24]} {row['T0_C']}")
def test_a_history_comes_out(row: dict[str, str]) -> None:
    log = as_log(row["steps"])
    for reference, q, column in (
        ("23 C", "5000", "te_Q5000_Ts23_h"),
        ("20 C", "5000", "te_Q5000_Ts20_h"),
        ("20 C", "4810.894", "te_Ea40kJ_Ts20_h"),  # 40 kJ/mol over the gas constant, 4,810.894 K
    ):
        found = worked(CURE, log=log, reference=reference, q=q, datum=f"{row['T0_C']} C")
        rel = 2e-7 if "Ea" in column else 1e-8
        assert found["equivalent_hours"] == pytest.approx(float(row[column]), rel=rel)
        assert found["degree_hours_c"] == pytest.approx(float(row["TTF_C_h"]), rel=1e-9)


def test_four_weeks_at_fifteen_degrees_are_the_printed_degree_days() -> None:
    # 28 d at 15 C over a datum of -11 C: 728 C days, as a course text prints it.
    assert cure.degree_hours([0, 672], [15, 15], datum=-11) / 24 == 728


# What must not come out, though it is printed.


def test_a_widely_printed_maturity_is_not_reproduced() -> None:
    # "28 d at 18 C, datum -11 C: 19,800 C h" (from memory of textbooks); 28 x 24 x 29 is 19,488.
    found = worked(CURE, log="hours,temperature\n0,18\n672,18", datum="-11 C")["degree_hours_c"]
    assert (found, found == 19_800) == (19_488, False)


def test_a_degree_above_the_reference_counts_for_more() -> None:
    # Common practice, no source: warmth hastens a cure.
    hours = cure.equivalent_hours([0, 1], [21, 21], reference=20, q=5000)
    assert (hours, hours > 1) == (pytest.approx(exp(5000 / 293.15 - 5000 / 294.15), rel=1e-12), True)
