"""The figure of gas escaping: properties of the flow, what it says, and what it refuses."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.figures.flow import FLOW
from repairlog.trade import flow
from tests.makers.figures import refused, worked

PRESSURES = st.floats(min_value=101_325, max_value=6.9e6)
KS = st.floats(min_value=1.05, max_value=1.67)


def mass(inside: float, *, area: float = 1e-5, k: float = 1.3) -> float:
    return flow.mass_flow(
        area=area, inside=inside, outside=101_325, temperature=288.15, molar_mass=0.0174, k=k, discharge=0.85, z=1
    )


@given(PRESSURES, PRESSURES, KS)
def test_more_pressure_never_means_less_gas(first: float, second: float, k: float) -> None:
    low, high = sorted((first, second))
    assert mass(low, k=k) <= mass(high, k=k) * (1 + 1e-12)


@given(PRESSURES, st.floats(min_value=1e-9, max_value=1e-2), st.floats(min_value=1, max_value=100))
def test_flow_goes_with_the_area(inside: float, area: float, times: float) -> None:
    assert mass(inside, area=area * times) == pytest.approx(times * mass(inside, area=area), rel=1e-12)


@given(KS)
def test_the_two_regimes_meet(k: float) -> None:
    border = 101_325 / flow.critical_ratio(k)
    assert mass(border * (1 - 1e-9), k=k) == pytest.approx(mass(border * (1 + 1e-9), k=k), rel=1e-8)


def test_the_regimes_are_named_on_either_side_of_the_border() -> None:
    # k = 1.30 chokes above 12.233 psig at 14.696 psia.
    said = {psi: worked(FLOW, hole="1/8 in", pressure=f"{psi} psi")["regime"] for psi in ("12.22", "12.24", "0")}
    assert said == {"12.22": "subsonic", "12.24": "choked", "0": "subsonic"}


def test_a_flow_over_time_has_volume_methane_and_what_it_counts_as() -> None:
    found = worked(
        FLOW, hole="3/16 in", pressure="60 psi", duration="6 h", methane_share="93.35 %", year="2023", cd="0.85"
    )
    kilograms = found["mass_flow_kg_s"] * 21600 * 0.9335
    assert found["volume_scf"] == pytest.approx(found["standard_flow_scfh"] * 6)
    assert (found["methane_kg"], found["co2e_t"], found["gwp"]) == (
        pytest.approx(kilograms),
        pytest.approx(kilograms * 25 / 1000),
        25,
    )


def test_the_newest_potential_is_taken_unless_a_year_is_named() -> None:
    said = {"hole": "1/8 in", "pressure": "1 psi", "duration": "1 h"}
    assert [
        worked(FLOW, **said, **({"year": year} if year else {}))["gwp"] for year in ("", "2012", "2013", "2024")
    ] == [
        28,
        21,
        25,
        28,
    ]


def test_without_a_duration_no_volume_is_claimed() -> None:
    assert set(worked(FLOW, hole="1/8 in", pressure="1 psi")) & {"volume_scf", "methane_kg", "co2e_t", "gwp"} == set()


def test_a_thinner_atmosphere_lets_less_gauge_pressure_choke_it() -> None:
    # A mile up, 12.10 psia: 11 psig is over 12.1 / 0.5457 - 12.1 = 10.07.
    said = {"hole": "1/8 in", "pressure": "11 psi"}
    assert [worked(FLOW, **said)["regime"], worked(FLOW, **said, elevation="5280 ft")["regime"]] == [
        "subsonic",
        "choked",
    ]


def test_a_cut_line_lets_out_less_than_its_bore_as_a_hole() -> None:
    said = {"pressure": "60 psi", "methane": True}
    cut = worked(FLOW, severed=True, id="0.445 in", length="100 ft", **said)["mass_flow_kg_s"]
    bore = worked(FLOW, hole="0.445 in", **said)["mass_flow_kg_s"]
    assert cut / bore == pytest.approx(0.21, abs=0.005)  # the isothermal table's 100 ft of half-inch tubing


def test_friction_is_that_of_a_smooth_pipe_and_of_laminar_flow() -> None:
    # Colebrook at Re 1e5, smooth: 0.01799 (standard chart, from memory); laminar: 64 / Re.
    assert flow.friction_factor(1e5, roughness=0) == pytest.approx(0.01799, abs=5e-5)
    assert [flow.friction_factor(re, roughness=0) for re in (1000, 2039)] == [0.064, 64 / 2039]
    assert not math.isclose(flow.friction_factor(2040, roughness=0), 64 / 2040, rel_tol=0.1)


HOLE = {"hole": "1/4 in", "pressure": "60 psi"}
LINE = {"severed": True, "id": "1 in", "length": "100 ft", "pressure": "60 psi"}


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({}, [("hole", "missing")]),
        ({**HOLE, "id": "1/8 in"}, [("hole", "hole_wider_than_pipe")]),
        ({**HOLE, "pressure": "-15 psi"}, [("pressure", "below_vacuum")]),
        ({**HOLE, "pressure": "-1 psi"}, [("pressure", "no_escape")]),
        ({**HOLE, "pressure": "1000.1 psi"}, [("pressure", "outside")]),
        ({**HOLE, "pressure": "10 psia"}, [("pressure", "no_escape")]),
        ({**HOLE, "gravity": "0"}, [("gravity", "not_above_zero")]),
        ({**HOLE, "gravity": "0.49"}, [("gravity", "outside")]),
        ({**HOLE, "gravity": "2.11"}, [("gravity", "outside")]),
        ({**HOLE, "gravity": "0.6", "methane": True}, [("gravity", "not_together")]),
        ({**HOLE, "hole": "1e400 in"}, [("hole", "number_unreadable")]),
        ({**HOLE, "hole": "0 in"}, [("hole", "not_above_zero")]),
        ({**HOLE, "hole": "-1/4 in", "pressure": "60 psy"}, [("hole", "negative"), ("pressure", "unit_unknown")]),
        ({**HOLE, "k": "1"}, [("k", "outside")]),
        ({**HOLE, "k": "1.3 psi"}, [("k", "number_alone")]),
        ({**HOLE, "cd": "1.01"}, [("cd", "outside")]),
        ({**HOLE, "cd": "0"}, [("cd", "not_above_zero")]),
        ({**HOLE, "z": "0"}, [("z", "not_above_zero")]),
        ({**HOLE, "temperature": "141 F"}, [("temperature", "outside")]),
        ({**HOLE, "duration": "0 h"}, [("duration", "not_above_zero")]),
        ({**HOLE, "duration": "1 h", "methane_share": "1.1"}, [("methane_share", "not_a_share")]),
        ({**HOLE, "duration": "1 h", "year": "2009"}, [("year", "gwp_unknown")]),
        ({**HOLE, "duration": "1 h", "year": "2024.5"}, [("year", "not_a_year")]),
        ({**HOLE, "atmosphere": "12 psi", "elevation": "0 ft"}, [("elevation", "given_both")]),
        ({**HOLE, "atmosphere": "12 psig"}, [("atmosphere", "gauge_not_absolute")]),
        ({**HOLE, "low_pressure": True}, [("pressure", "outside")]),
        ({**HOLE, "low_pressure": True, "pressure": "28.01 in wc"}, [("pressure", "outside")]),
        ({**HOLE, "low_pressure": True, "pressure": "28 in wc"}, []),
        ({**LINE, "hole": "1/4 in"}, [("hole", "not_together")]),
        ({**LINE, "low_pressure": True}, [("low_pressure", "not_together")]),
        ({**LINE, "cd": "0.9"}, [("cd", "not_together")]),
        ({**LINE, "length": "1 in"}, [("length", "severed_too_short")]),
        ({**LINE, "length": "-1 ft"}, [("length", "negative")]),
        ({**LINE, "pressure": "0 psi"}, [("pressure", "no_escape")]),
        ({**LINE, "roughness": "2 in"}, [("roughness", "outside")]),
        (HOLE, []),
        (LINE, []),
    ],
)
def test_what_cannot_be_worked_out_is_refused_in_the_words_of_its_field(
    typed: dict[str, str | bool], complaints: list[tuple[str, str]]
) -> None:
    assert refused(FLOW, **typed) == complaints
