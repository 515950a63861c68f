"""The figure of wraps: its properties, its fractions, and what it refuses."""

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.figures.wrap import WRAP
from repairlog.trade import wrapping
from tests.makers.figures import refused, worked

TAPE = {"od": "4.5 in", "tape_width": "4 in", "overlap": "0.5", "length": "24 in"}
SHEET = {"od": "4.5 in", "sheet_width": "10 in", "length": "24 in"}


@given(
    st.floats(min_value=0.5, max_value=24),
    st.fractions(min_value=0, max_value=Fraction(9, 10), max_denominator=60),
    st.integers(min_value=1, max_value=6),
    st.floats(min_value=0, max_value=0.1),
    st.sampled_from([wrapping.BODY, wrapping.COVERED, wrapping.TURNS]),
)
def test_the_tape_is_the_sum_of_its_turns(
    od: float, overlap: Fraction, passes: int, thickness: float, ends: str
) -> None:
    found = wrapping.helical(od=od, width=1, overlap=overlap, length=30, passes=passes, thickness=thickness, ends=ends)
    helical = sum(it.turns * it.turn_length for it in found.passes)
    assert found.tape_length == pytest.approx(helical + found.plain_turns * pi * od, rel=1e-12)
    assert found.turns == pytest.approx(sum(it.turns for it in found.passes) + found.plain_turns, rel=1e-12)
    assert found.layers_least <= found.layers_mean + 1e-9 < found.layers_least + passes + 1e-6


@given(st.floats(min_value=1, max_value=24), st.fractions(min_value=0, max_value=Fraction(9, 10), max_denominator=60))
def test_a_pass_takes_the_exact_length_at_any_slope(od: float, overlap: Fraction) -> None:
    found = wrapping.helical(od=od, width=2, overlap=overlap, length=30, passes=1, thickness=0, ends=wrapping.BODY)
    assert found.tape_length == pytest.approx(pi * od * 30 / (2 * float(1 - overlap)), rel=1e-12)


@pytest.mark.parametrize(
    ("overlap", "layers"),
    [
        ("0", 1),
        ("0.49", 1),
        ("1/2", 2),
        ("0.55", 2),
        ("0.6666666666666666", 2),  # just under two thirds
        ("2/3", 3),
        ("66 2/3 %", 3),
        ("0.6667", 3),
        ("3/4", 4),
        ("5/6", 6),
        ("6/7", 7),
        ("7/9", 4),
        ("11/20", 2),
        ("50 per cent", 2),
        ("55%", 2),
    ],
)
def test_the_least_number_of_layers_is_rounded_down(overlap: str, layers: int) -> None:
    assert worked(WRAP, **{**TAPE, "overlap": overlap})["layers_least"] == layers


def test_a_splice_is_lost_between_two_rolls_and_not_by_the_first() -> None:
    # Two rolls of 120 in with one splice of 12 in hold 228 in.
    assert [wrapping.rolls(need, roll=120, splice=12) for need in (227, 228, 229)] == [2, 2, 3]


def test_the_thickness_of_tape_is_told_in_mils_too() -> None:
    inches, mils = (worked(WRAP, **TAPE, thickness=it) for it in ("0.035 in", "35 mil"))
    assert inches["tape_length_in"] == mils["tape_length_in"]


def test_rolls_lose_a_splice_each_but_the_first() -> None:
    # 20 ft of tape from rolls of 10 ft: 2; with splices of 1 ft, 10 + 9 + 9: 3; from 21 ft rolls 1.
    assert [wrapping.rolls(240, roll=roll, splice=splice) for roll, splice in ((120, 0), (120, 12), (252, 12))] == [
        2,
        3,
        1,
    ]


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, [("overlap", "missing")]),
        ({**TAPE, "overlap": "1"}, [("overlap", "outside")]),
        ({**TAPE, "overlap": "0.95"}, []),
        ({**TAPE, "overlap": "1.1"}, [("overlap", "not_a_share")]),
        ({**TAPE, "overlap": "-0.5"}, [("overlap", "not_a_share")]),
        ({**TAPE, "overlap": "1e400"}, [("overlap", "number_unreadable")]),
        ({**TAPE, "overlap": "50"}, [("overlap", "not_a_share")]),
        ({**TAPE, "overlap": "1/0"}, [("overlap", "number_unreadable")]),
        ({**TAPE, "thickness": "35 mill"}, [("thickness", "unit_unknown")]),
        ({**TAPE, "length": "35 mil"}, [("length", "unit_unknown")]),
        ({**TAPE, "length": "-1 in"}, [("length", "negative")]),
        ({**TAPE, "length": "0 in"}, [("length", "not_above_zero")]),
        ({**TAPE, "length": "3.9 in", "ends": "covered"}, [("length", "too_short_to_cover")]),
        ({**TAPE, "tape_width": "29 in"}, [("tape_width", "tape_too_wide")]),
        ({**TAPE, "passes": "1.5"}, [("passes", "not_whole")]),
        ({**TAPE, "passes": "0"}, [("passes", "outside")]),
        ({**TAPE, "passes": "101"}, [("passes", "outside")]),
        ({**TAPE, "ends": "open"}, [("ends", "not_a_choice")]),
        ({**TAPE, "roll": "0 ft"}, [("roll", "not_above_zero")]),
        ({**TAPE, "roll": "6 in", "splice": "6 in"}, [("splice", "splice_too_long")]),
        ({**TAPE, "roll": "6 ft", "roll_od": "4 in"}, [("roll_od", "given_both")]),
        (
            {**TAPE, "roll_od": "4 in", "roll_core_od": "4 in", "thickness": "0.02 in"},
            [("roll_core_od", "core_too_wide")],
        ),
        ({**TAPE, "roll_od": "4 in", "roll_core_od": "1 in"}, [("thickness", "not_above_zero")]),
        ({**TAPE, "layers": "2"}, [("layers", "not_together")]),
        ({**SHEET, "overlap": "0.5"}, [("overlap", "not_together")]),
        ({**SHEET, "lap": "10 in"}, [("lap", "lap_too_wide")]),
        ({**SHEET, "lap": "1 in"}, []),
    ],
)
def test_what_cannot_be_wound_is_refused(typed: dict[str, str], complaints: list[tuple[str, str]]) -> None:
    assert refused(WRAP, **typed) == complaints
