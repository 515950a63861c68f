"""A leak's own history as segments of the figure of loss: pressure steps, elapsed hours, and what cannot be said."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from repairlog.figures.loss import LOSS
from repairlog.figures.lost import Rated, segments
from repairlog.trade.release import Release, Stretch
from repairlog.trade.unworkable import Unworkable
from tests.makers.figures import worked

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
