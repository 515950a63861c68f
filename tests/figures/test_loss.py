"""The figure of gas lost: elapsed hours across clock changes, rates of both kinds, and what it refuses."""

import pytest

from repairlog.figures.flow import FLOW
from repairlog.figures.loss import LOSS
from tests.makers.figures import refused, worked


@pytest.mark.parametrize(
    ("first", "last", "hours"),
    [
        ("2025-03-08T12:00", "2025-03-09T12:00", 23),  # clocks forward in between
        ("2025-11-01T12:00", "2025-11-02T12:00", 25),  # and back
        ("2025-06-01T12:00", "2025-06-02T12:00", 24),
        ("2025-11-02T01:30-04:00", "2025-11-02T01:30-05:00", 1),
        ("2025-06-01T12:00", "2025-06-01T12:00", 0),
    ],
)
def test_hours_are_elapsed_whatever_clocks_did(first: str, last: str, hours: float) -> None:
    assert worked(LOSS, segment=[f"1 scfh, {first} to {last}"], zone="America/New_York")["hours"] == hours


def test_a_comma_of_a_thousand_parts_nothing() -> None:
    given = ["1,200 scfh, 1,000 h", "1,200 scfh,1000 h", "1200 scfh, 41 d 16 h"]
    assert [worked(LOSS, segment=[it])["volume_scf"] for it in given] == [1_200_000] * 3


def test_a_rate_by_mass_is_taken_at_the_density_of_the_accounting() -> None:
    assert worked(LOSS, segment=["1 g/min, 1 h"])["segments"] == [
        {"rate_scfh": 3.125, "hours": 1.0, "volume_scf": 3.125}
    ]


def test_moments_without_a_zone_are_utc_and_the_figure_says_so() -> None:
    found = worked(LOSS, segment=["2 scfh, 2025-03-01T08:00 to 2025-03-31T08:00"])
    assert (found["hours"], any("UTC" in it for it in found["cautions"])) == (720, True)


def test_a_share_of_methane_lessens_the_methane_and_not_the_gas() -> None:
    whole, part = (worked(LOSS, segment=["5 scfh, 31 d"], methane_share=share) for share in ("1", "0.9335"))
    assert part["volume_scf"] == whole["volume_scf"] == 3720
    assert part["methane_kg"] == pytest.approx(66.674304, rel=1e-9)  # 5 x 24 x 31 x 0.9335 x 0.0192
    assert part["co2e_t"] == pytest.approx(1.866880512, rel=1e-9)


@pytest.mark.parametrize(
    ("segment", "code"),
    [
        ("30 scfh", "not_written_so"),
        ("30 scfh,", "not_written_so"),
        ("30 scfh, 240", "unit_missing"),
        ("-30 scfh, 240 h", "negative"),
        ("30 psi, 240 h", "unit_of_other_quantity"),
        ("30 scfh, -1 h", "negative"),
        ("1e400 scfh, 1 h", "number_unreadable"),
        ("30 scfh, 2025-03-09T02:30 to 2025-03-10T00:00", "local_time_never"),
        ("30 scfh, 2025-11-02T01:30 to 2025-11-03T00:00", "local_time_twice"),
        ("30 scfh, 2025-11-03 to 2025-11-02", "ends_before"),
        ("30 scfh, 3 March to 4 March", "not_written_so"),
        ("@ 30 psi, 1 h", "no_rate_before"),
        ("30 scfh @ -20 psi, 1 h", "below_vacuum"),
    ],
)
def test_a_segment_that_cannot_be_read_is_refused(segment: str, code: str) -> None:
    assert refused(LOSS, segment=[segment], zone="America/New_York") == [("segment", code)]


def test_a_new_pressure_needs_an_old_one_above_the_atmosphere() -> None:
    assert [
        refused(LOSS, segment=[first, "@ 30 psi, 1 h"])
        for first in ("30 scfh, 1 h", "30 scfh @ 0 psi, 1 h", "30 scfh @ 1 in wc, 1 h")
    ] == [[("segment", "no_rate_before")], [("segment", "no_escape")], []]


def test_no_segment_and_no_such_zone_are_told() -> None:
    assert (refused(LOSS), refused(LOSS, segment=["1 scfh, 1 h"], zone="Eastmarsh")) == (
        [("segment", "missing")],
        [("zone", "zone_unknown")],
    )


def test_a_hole_is_a_rate_only_where_the_gas_blows_free() -> None:
    hole = "hole 1/16 in @ 45 psi, 6 h"
    free = worked(LOSS, segment=[hole], basis="blows-free")
    assert free["segments"][0]["rate_scfh"] == worked(FLOW, hole="1/16 in", pressure="45 psi")["standard_flow_scfh"]
    assert free["understood"]["gas"] == "gravity 0.6, 59 °F, Z = 1, coefficient 1"
    assert [refused(LOSS, segment=[hole]), refused(LOSS, segment=[hole], basis="measured")] == [
        [("segment", "hole_not_free")]
    ] * 2
    assert refused(LOSS, segment=["hole 1/16 in, 6 h"], basis="blows-free") == [("segment", "hole_without_pressure")]
    assert refused(LOSS, segment=["hole 0 in @ 45 psi, 6 h"], basis="blows-free") == [("segment", "not_above_zero")]
    assert refused(LOSS, segment=["hole 1/16 in @ 1200 psi, 6 h"], basis="blows-free") == [("segment", "outside")]


@pytest.mark.parametrize(
    ("volume", "reaches"), [("2999999", "no"), ("3000000", "yes"), ("3000001", "yes")]
)  # 49 CFR 191.3: three million cubic feet or more
def test_only_measured_or_free_blowing_gas_is_compared_with_what_is_to_be_reported(volume: str, reaches: str) -> None:
    for basis in ("measured", "blows-free"):
        found = worked(LOSS, segment=[f"{volume} scfh, 1 h"], basis=basis)
        assert (found["reaches_threshold"], found["report_threshold_scf"]) == (reaches, 3_000_000)
        assert "191.3" in found["against_threshold"]
    for typed in ({}, {"basis": "factor"}):
        found = worked(LOSS, segment=[f"{volume} scfh, 1 h"], **typed)
        assert "reaches_threshold" not in found
        assert any("Not compared" in it for it in found["cautions"])


def test_moments_with_an_offset_of_their_own_are_not_said_to_be_utc() -> None:
    found = worked(LOSS, segment=["2 scfh, 2025-03-01T08:00-05:00 to 2025-03-31T08:00-04:00"])
    assert (found["hours"], any("UTC" in it for it in found["cautions"])) == (719, False)
