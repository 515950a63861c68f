"""A leak's own history as segments of the figure of loss: pressure steps, elapsed hours, and what cannot be said."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from repairlog.figures.loss import LOSS
from repairlog.figures.lost import Rated, Releases, segments, segments_of
from repairlog.trade.release import Release, Stretch
from repairlog.trade.unworkable import Unworkable
from tests.makers.figures import refused, worked

ZONE = ZoneInfo("America/New_York")


def release(*stretches: tuple[datetime, datetime, str]) -> Release:
    made = tuple(Stretch(begins=begins, ends=ends, pressure=at) for begins, ends, at in stretches)
    return Release(stretches=made, at_most=False, goes_on=False)


def at(month: int, day: int, hour: int) -> datetime:
    return datetime(2025, month, day, hour, tzinfo=UTC)


STEPS = release((at(3, 1, 0), at(3, 11, 0), "60 psi"), (at(3, 11, 0), at(3, 16, 0), "30 psi"))


def test_a_rate_follows_the_steps_of_the_pressure_across_a_change_of_clocks() -> None:
    """30 scfh for 240 h, then 60 to 30 psig choked for 120 h: 9,354.139445 scf by the table of a leak's life."""
    given = segments(STEPS, Rated(basis="measured", rate="30 scfh"), zone=ZONE)
    assert given == [
        "30 scfh @ 60 psi, 2025-02-28T19:00-05:00 to 2025-03-10T20:00-04:00",
        "@ 30 psi, 2025-03-10T20:00-04:00 to 2025-03-15T20:00-04:00",
    ]
    found = worked(LOSS, segment=given, basis="measured")
    assert (found["hours"], found["volume_scf"]) == (360, pytest.approx(9354.139445, rel=1e-6))


def test_a_rate_measured_at_another_pressure_is_scaled_from_there() -> None:
    given = segments(STEPS, Rated(basis="measured", rate="30 scfh", rate_at="30 psi"), zone=ZONE)
    assert (given[0], given[-1][:19]) == ("30 scfh @ 30 psi, 0 h", "30 scfh @ 30 psi, 2")
    rates = [it["rate_scfh"] for it in worked(LOSS, segment=given)["segments"]]
    assert rates == [30, pytest.approx(30 * 74.695949 / 44.695949, rel=1e-6), 30]


def test_without_every_pressure_the_rate_is_taken_as_it_is() -> None:
    of = release((at(3, 1, 0), at(3, 2, 0), ""), (at(3, 3, 0), at(3, 4, 0), "30 psi"))
    given = segments(of, Rated(basis="factor", rate="2 scfh"), zone=ZONE)
    assert worked(LOSS, segment=given)["volume_scf"] == 96


@pytest.mark.parametrize(
    ("rated", "field", "code"),
    [
        (Rated(basis="measured"), "rate", "cannot_be_estimated"),
        (Rated(basis="factor", hole="1/16 in"), "hole", "hole_not_free"),
        (Rated(hole="1/16 in"), "hole", "hole_not_free"),
        (Rated(basis="blows-free", hole="1/16 in", rate="2 scfh"), "hole", "given_both"),
    ],
)
def test_a_buried_leak_takes_a_measured_rate_or_a_factor_or_cannot_be_estimated(
    rated: Rated, field: str, code: str
) -> None:
    with pytest.raises(Unworkable) as refused:
        segments(STEPS, rated, zone=ZONE)
    assert (refused.value.field, refused.value.code) == (field, code)


def test_a_hole_that_blows_free_needs_every_pressure_and_an_empty_history_says_so() -> None:
    free = Rated(basis="blows-free", hole="1/16 in")
    assert worked(LOSS, segment=segments(STEPS, free, zone=ZONE), basis="blows-free")["hours"] == 360
    with pytest.raises(Unworkable, match="hole_without_pressure"):
        segments(release((at(3, 1, 0), at(3, 2, 0), "")), free, zone=ZONE)
    with pytest.raises(Unworkable, match="no_stretch"):
        segments(release(), free, zone=ZONE)


SHORT = release((at(3, 1, 0), at(3, 3, 0), "60 psi"))
TWO = Releases(whole=STEPS, of_source={1: STEPS, 2: SHORT})
MEASURED = "measured"


def test_each_source_has_its_own_rate_and_its_own_hours() -> None:
    """By hand: 30 scfh for 240 h, then 44.696/74.696 of it for 120 h; 2 scfh for 48 h."""
    rated = {1: Rated(basis=MEASURED, rate="30 scfh"), 2: Rated(basis=MEASURED, rate="2 scfh")}
    given = segments_of(TWO, rated, zone=ZONE)
    assert [each.partition(": ")[0] for each in given] == ["source 1", "source 1", "source 2"]
    found = worked(LOSS, segment=given, basis=MEASURED)
    assert [it["of"] for it in found["segments"]] == ["source 1", "source 1", "source 2"]
    assert (found["hours"], found["volume_scf"]) == (408, pytest.approx(9354.139445 + 96, rel=1e-6))
    assert found["steps"][2].startswith("source 2: 2 scf/h x 48 h = 96 scf")


def test_a_pressure_alone_follows_the_rate_of_its_own_source() -> None:
    given = ["source 1: 30 scfh @ 60 psi, 1 h", "source 2: 5 scfh @ 30 psi, 1 h", "source 1: @ 60 psi, 1 h"]
    rates = [it["rate_scfh"] for it in worked(LOSS, segment=given)["segments"]]
    assert rates == [30, 5, 30]
    assert refused(LOSS, segment=[given[0], "source 2: @ 30 psi, 1 h"]) == [("segment", "no_rate_before")]


def test_one_rate_for_all_sources_says_so_and_goes_on_until_the_last_is_tight() -> None:
    given = segments_of(TWO, {0: Rated(basis=MEASURED, rate="30 scfh")}, zone=ZONE)
    assert [each.partition(": ")[0] for each in given] == ["all 2 sources"] * 2
    assert worked(LOSS, segment=given)["volume_scf"] == pytest.approx(9354.139445, rel=1e-6)


@pytest.mark.parametrize(
    ("rated", "field", "code"),
    [
        ({1: Rated(rate="2 scfh")}, "rate_2", "source_without_rate"),
        ({0: Rated(rate="2 scfh"), 1: Rated(rate="2 scfh")}, "rate", "given_both"),
        ({1: Rated(rate="2 scfh"), 3: Rated(rate="2 scfh")}, "rate_3", "no_such_source"),
        ({1: Rated(rate="2 scfh"), 2: Rated(basis=MEASURED, hole="1/8 in")}, "hole_2", "hole_not_free"),
        ({}, "rate", "cannot_be_estimated"),
        ({2: Rated(rate_at="60 psi")}, "rate", "cannot_be_estimated"),
    ],
)
def test_no_source_takes_the_rate_of_another(rated: dict[int, Rated], field: str, code: str) -> None:
    with pytest.raises(Unworkable) as told:
        segments_of(TWO, rated, zone=ZONE)
    assert (told.value.field, told.value.code) == (field, code)


def test_a_source_that_lost_nothing_needs_no_rate() -> None:
    of = Releases(whole=STEPS, of_source={1: STEPS, 2: release()})
    assert len(segments_of(of, {1: Rated(rate="30 scfh")}, zone=ZONE)) == 2
