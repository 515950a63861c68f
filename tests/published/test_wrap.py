"""Wraps against worked cases, each with its layers counted at 20,000 random points of the pipe.

Source: geometry of the helix; the counts stand in the tables. Printed checks have their source beside them.
"""

import json
import math

import pytest

from repairlog.figures.wrap import WRAP
from tests.makers.figures import worked
from tests.makers.published import table

CASES = {row["case"]: row for row in table("helical_wrap_cases.csv")}
ENDS = {row["case"]: row for row in table("helical_full_coverage_ends.csv")}
SHEETS = {row["case"]: row for row in table("circumferential_wrap_cases.csv")}


def of(row: dict[str, str], **typed: str) -> dict[str, float]:
    return worked(
        WRAP,
        od=f"{row['OD_in']} in",
        tape_width=f"{row['tape_w_in']} in",
        overlap=row["overlap"],
        length=f"{row['L_in']} in",
        **{"passes": row["passes"], "thickness": f"{row['tape_t_in']} in", **typed},
    )


@pytest.mark.parametrize("case", CASES)
def test_a_worked_wrap_comes_out(case: str) -> None:
    row = CASES[case]
    bare, whole = of(row, passes="1", thickness="0 in"), of(row)
    assert bare["tape_length_in"] == pytest.approx(float(row["tape_len_1pass_exact_in"]), rel=1e-8)
    assert bare["turns"] == pytest.approx(float(row["L_in"]) / float(row["pitch_in"]), rel=1e-7)
    assert bare["tape_length_in"] / bare["turns"] == pytest.approx(float(row["turn_length_in"]), rel=1e-7)
    assert whole["tape_length_in"] == pytest.approx(float(row["total_len_closed_form_in"]), rel=1e-8)
    assert whole["final_od_in"] == pytest.approx(float(row["final_OD_in"]), rel=1e-7)
    assert whole["layers_mean"] == pytest.approx(float(row["layers_total"]), abs=6e-7)


@pytest.mark.parametrize("case", CASES)
def test_layers_are_those_counted_at_random_points(case: str) -> None:
    row = CASES[case]
    counted = {int(layers): int(points) for layers, points in json.loads(row["bruteforce_layer_hist"]).items()}
    found = of(row, passes="1")
    assert found["layers_least"] == min(counted)
    assert found["layers_mean"] == pytest.approx(
        sum(layers * points for layers, points in counted.items()) / sum(counted.values()), rel=3e-3
    )


@pytest.mark.parametrize("case", CASES)
def test_plain_turns_at_the_ends_and_rolls_come_out(case: str) -> None:
    row = CASES[case]
    for roll, column in (("10 ft", "rolls_of_10ft"), ("50 ft", "rolls_of_50ft")):
        found = of(row, ends="turns", roll=roll)
        assert found["tape_length_in"] / 12 == pytest.approx(float(row["with_2_end_turns_per_pass_ft"]), rel=1e-6)
        assert found["rolls"] == int(row[column])


@pytest.mark.parametrize("case", ENDS)
def test_a_helix_that_covers_both_ends_has_so_many_turns(case: str) -> None:
    row = ENDS[case]
    found = worked(
        WRAP,
        od=f"{row['OD_in']} in",
        tape_width=f"{row['w_in']} in",
        overlap=row["overlap"],
        length=f"{row['L_in']} in",
        ends="covered",
    )
    assert (found["turns"], found["tape_length_in"]) == (
        pytest.approx(float(row["turns_min"]), rel=1e-8),
        pytest.approx(float(row["tape_len_min_in"]), rel=1e-8),
    )


@pytest.mark.parametrize("case", SHEETS)
def test_sheets_come_out(case: str) -> None:
    row = SHEETS[case]
    found = worked(
        WRAP,
        od=f"{row['OD_in']} in",
        thickness=f"{row['t_in']} in",
        layers=row["layers"],
        sheet_width=f"{row['sheet_w_in']} in",
        lap=f"{row['axial_lap_in']} in",
        length=f"{row['L_in']} in",
    )
    assert (found["length_per_band_in"], found["bands"], found["tape_length_in"], found["final_od_in"]) == (
        pytest.approx(float(row["len_formula_pi_n_D_plus_nt"]), rel=1e-9),
        int(row["bands"]),
        pytest.approx(float(row["total_len_in"]), rel=1e-8),
        pytest.approx(float(row["final_OD_in"])),
    )


@pytest.mark.parametrize("row", table("roll_length.csv"), ids=lambda row: row["roll_OD_in"])
def test_a_roll_holds_so_much(row: dict[str, str]) -> None:
    found = worked(
        WRAP,
        roll_od=f"{row['roll_OD_in']} in",
        roll_core_od=f"{row['core_OD_in']} in",
        thickness=f"{row['t_in']} in",
    )
    assert found["roll_length_ft"] == pytest.approx(float(row["length_ft"]), rel=1e-7)


def test_two_passes_of_six_inch_tape_over_three_feet() -> None:
    # 6.625 OD, 6 in tape, 50 %, 36 in, 2 passes of 0.035: 510.068983 in, 6.905 in across; with plain turns 49.443 ft,
    # 5 rolls of 10 ft, 6 with splices of 6 in (the splice as printed by a maker of tape).
    wrap = {"od": "6.625 in", "tape_width": "6 in", "overlap": "0.5", "length": "36 in", "passes": "2"}
    body = worked(WRAP, **wrap, thickness="0.035 in")
    ended = worked(WRAP, **wrap, thickness="0.035 in", ends="turns", roll="10 ft")
    spliced = worked(WRAP, **wrap, thickness="0.035 in", ends="turns", roll="10 ft", splice="6 in")
    assert (round(body["tape_length_in"], 6), body["final_od_in"]) == (510.068983, pytest.approx(6.905))
    assert (round(ended["tape_length_in"] / 12, 3), ended["rolls"], spliced["rolls"]) == (49.443, 5, 6)


def test_bare_pipe_has_its_printed_area() -> None:
    # 6 5/8 in pipe: 1.73442 ft2 a foot, 9,157 ft2 a mile, as a handbook prints it: tape one inch wide, no overlap.
    found = worked(WRAP, od="6 5/8 in", tape_width="1 in", overlap="0", length="1 mi")["tape_length_in"]
    square_feet = found / 144
    assert (round(square_feet / 5280, 4), int(square_feet)) == (1.7344, 9157)


def test_four_passes_at_one_half_make_eight_layers() -> None:
    # Common practice, no source.
    found = worked(WRAP, od="4.5 in", tape_width="4 in", overlap="1/2", length="24 in", passes="4")
    assert (found["layers_least"], found["layers_mean"]) == (8, 8.0)


# What must not come out, though it is printed.


def test_a_printed_coefficient_for_fifty_five_per_cent_is_a_third_short() -> None:
    # A maker of coatings prints 1.55 for an overlap of 55 %, adding the overlap in place of dividing by the rest.
    found = worked(WRAP, od="4.5 in", tape_width="4 in", overlap="55 %", length="24 in")
    bare = math.pi * 4.5 * 24 / 4
    assert (round(found["tape_length_in"] / bare, 3), found["layers_least"]) == (2.222, 2)
    assert all(
        of(row)["tape_length_in"] > float(row["wrong_formula_times_1_plus_o_in"])
        for row in CASES.values()
        if row["overlap"] != "0"
    )


def test_felt_for_a_mile_has_an_allowance_that_bare_area_has_not() -> None:
    # A handbook's 15 squares (of 100 ft2) times the diameter: 13.823 is the bare area, 8.5 % is lap.
    squares = worked(WRAP, od="24 in", tape_width="1 in", overlap="0", length="1 mi")["tape_length_in"] / 144 / 100
    assert (round(squares / 24, 3), round(15 / (squares / 24), 3)) == (13.823, 1.085)
