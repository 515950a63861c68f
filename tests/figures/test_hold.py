"""The figure of a pressure test: no leak gives nothing lost, and it passes only what it can show."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.figures.answered import answered
from repairlog.figures.hold import HOLD
from repairlog.trade.hold_test import Reading, hold
from tests.makers.figures import refused, worked

TEST = {"volume": "23.3028 ft3", "start": "100 psi @ 60 F", "end": "99.5 psi @ 60 F", "hours": "24"}
SHOWN = {"gauge_resolution": "0.1 psi", "temperature_uncertainty": "1 F"}
# Leak 0.0330 scfh; gauge and thermometer may hide 0.0211 scfh between them.


@given(
    st.floats(min_value=0, max_value=150),
    st.floats(min_value=420, max_value=560),
    st.floats(min_value=420, max_value=560),
    st.floats(min_value=11, max_value=15),
)
def test_without_a_leak_nothing_is_lost_at_any_temperature(
    gauge: float, before: float, after: float, atmosphere: float
) -> None:
    start = Reading(gauge=gauge, atmosphere=14.696, temperature=before)
    end = Reading(gauge=start.absolute * after / before - atmosphere, atmosphere=atmosphere, temperature=after)
    found = hold(
        volume_ft3=50, start=start, end=end, hours=24, resolution_psi=None, uncertainty_r=None, limit_scfh=None
    )
    assert found.lost_scf == pytest.approx(0, abs=1e-9)
    assert found.expected_end_psig == pytest.approx(end.gauge, abs=1e-9)


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [
        ({**SHOWN, "limit": "0.5 scfh"}, "pass"),
        ({**SHOWN, "limit": "0.055 scfh"}, "pass"),
        ({**SHOWN, "limit": "0.053 scfh"}, "cannot say"),  # leak and doubt together reach above it
        ({**SHOWN, "limit": "0.0329 scfh"}, "fail"),
        ({**SHOWN, "limit": "0.02 scfh", "end": "100 psi @ 60 F"}, "cannot say"),  # could hide as much as the limit
        ({**SHOWN, "limit": "0.022 scfh", "end": "100 psi @ 60 F"}, "pass"),
        (
            {**SHOWN, "limit": "0.0205 scfh", "end": "100.1 psi @ 60 F"},
            "cannot say",
        ),  # a reading too high hides nothing
        ({**SHOWN}, "cannot say"),
        ({"gauge_resolution": "0.1 psi", "limit": "0.5 scfh"}, "cannot say"),
        ({"temperature_uncertainty": "1 F", "limit": "0.5 scfh"}, "cannot say"),
        ({"limit": "0.5 scfh"}, "cannot say"),
        ({**SHOWN, "limit": "0.5 scfh", "gauge_resolution": "0 psi"}, "cannot say"),  # no gauge has no step
        ({**SHOWN, "limit": "0.5 scfh", "temperature_uncertainty": "0 F"}, "cannot say"),
        ({**SHOWN, "limit": "0.5 scfh", "hours": "1 d"}, "pass"),
        ({"limit": "0.01 scfh"}, "fail"),
        ({**SHOWN, "limit": "0.5 scfh", "start": "100 psi"}, "cannot say"),
        ({**SHOWN, "limit": "0.5 scfh", "end": "90 psi"}, "cannot say"),
        ({**SHOWN, "limit": "0.5 scfh", "end": "101 psi @ 60 F"}, "cannot say"),  # rose: the readings are wrong
        ({**SHOWN, "limit": "0.5 scfh", "end": "99.5 psi @ 80 F"}, "pass"),
        ({**SHOWN, "limit": "0.1 scfh", "end": "99.5 psi @ 80 F"}, "fail"),  # warmed, and yet it fell
    ],
)
def test_a_test_passes_only_what_it_can_show(typed: dict[str, str], verdict: str) -> None:
    answer, _complaints = answered(HOLD, {**TEST, **typed})
    assert answer is not None
    assert (answer.values[0].worth, answer.wrong) == (verdict, verdict == "fail")


def test_without_temperatures_only_the_gauge_is_told() -> None:
    found = worked(HOLD, **{**TEST, "end": "99.5 psi"}, **SHOWN)
    assert {key for key in found if key.endswith(("_scf", "_scfh", "_psi", "_psig"))} == {"gauge_only_scf"}


@pytest.mark.parametrize(
    ("typed", "complaints"),
    [
        ({"volume": "0 ft3"}, [("volume", "not_above_zero")]),
        ({"volume": "23 psi"}, [("volume", "unit_of_other_quantity")]),
        ({"start": "-20 psi @ 60 F"}, [("start", "below_vacuum")]),
        ({"start": "100 psi @"}, [("start", "not_written_so")]),
        ({"start": "@ 60 F"}, [("start", "empty")]),
        ({"start": "2000 psi @ 60 F"}, [("start", "outside")]),
        ({"end": "99.5 psi @ 600 F"}, [("end", "outside")]),
        ({"end": "99.5 psi @ -500 F"}, [("end", "below_absolute_zero")]),
        ({"hours": "0"}, [("hours", "not_above_zero")]),
        ({"hours": "1 psi"}, [("hours", "unit_of_other_quantity")]),
        ({"hours": "1e400"}, [("hours", "number_unreadable")]),
        ({"gauge_resolution": "-1 psi"}, [("gauge_resolution", "not_a_step")]),
        ({"temperature_uncertainty": "-1 F"}, [("temperature_uncertainty", "negative")]),
        ({"limit": "0 scfh"}, [("limit", "not_above_zero")]),
    ],
)
def test_what_cannot_be_read_is_refused(typed: dict[str, str], complaints: list[tuple[str, str]]) -> None:
    assert refused(HOLD, **{**TEST, **typed}) == complaints
