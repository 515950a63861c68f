"""Lots, areas and ranks. Common practice, no source."""

from uuid import UUID

import pytest

from repairlog.entries.standing import standing
from repairlog.trade.area import Area, area
from repairlog.trade.grade import rank_of
from repairlog.trade.lot import Lot, is_expired, lot
from tests.makers import book as m
from tests.makers.told import story, told

AREA, LOT = m.new_id(), m.new_id()
RECEIVED = {
    "kind": "lot_received",
    "id": LOT,
    "area": AREA,
    "item": "wrap tape, 2 in",
    "lot_number": "W-0118",
    "expires_on": "2026-09-30",
    "happened": "2025-01-02",
}
OPENED = {
    "kind": "area_opened",
    "id": AREA,
    "name": "Highfold",
    "code": "HF",
    "zone": "America/Denver",
    "elevation": "5280 ft",
    "happened": "2025-01-02",
}


def test_a_lot_is_what_was_received_as_corrected() -> None:
    as_is = lot(standing(story(RECEIVED, m.corrected(LOT, ("expires_on", "2026-10-31")))))
    assert as_is == Lot(
        id=UUID(LOT),
        area=AREA,
        item="wrap tape, 2 in",
        lot_number="W-0118",
        expires_on="2026-10-31",
        void=False,
        received_on="2025-01-02",
    )


def test_a_lot_received_in_error_says_so() -> None:
    as_is = lot(standing(story(RECEIVED, m.void(LOT))))
    assert as_is is not None
    assert as_is.void


def test_entries_that_receive_nothing_tell_of_no_lot_and_open_no_area() -> None:
    assert (lot(story(OPENED)), area(story(RECEIVED)), lot([]), area([])) == (None, None, None, None)


@pytest.mark.parametrize(
    ("on", "expired"), [("2026-09-29", False), ("2026-09-30", False), ("2026-10-01", True), ("2027-01-01", True)]
)
def test_a_lot_expires_after_its_last_day(on: str, expired: bool) -> None:
    # Common practice, no source: the day marked on material is the last day of its use.
    tape = lot(story(RECEIVED))
    assert tape is not None
    assert is_expired(tape, on=on) is expired


def test_a_lot_without_a_last_day_never_expires() -> None:
    tape = lot(story({name: value for name, value in RECEIVED.items() if name != "expires_on"}))
    assert tape is not None
    assert not is_expired(tape, on="2999-12-31")


def test_an_area_is_what_was_opened_as_corrected_and_counts_its_changes() -> None:
    opened = told(0, OPENED, understood={"elevation": "1609.344 m"})
    correction = told(1, m.corrected(AREA, ("lel_basis", "4.4")))
    expected = Area(
        id=UUID(AREA),
        name="Highfold",
        code="HF",
        zone="America/Denver",
        elevation="1609.344 m",
        lel_basis="5.0",
        settings_version=1,
    )
    assert area([opened]) == expected
    corrected = area(standing([opened, correction]))
    assert corrected is not None
    assert (corrected.lel_basis, corrected.settings_version, corrected.zone) == ("4.4", 2, "America/Denver")


def test_of_what_an_area_says_what_was_said_last_counts_and_what_was_said_in_error_does_not() -> None:
    first, last, wrong = (
        m.cut_over(AREA, happened=on, cut_over_on=on) for on in ("2026-01-02", "2026-02-02", "2026-03-02")
    )
    found = area(standing(story(OPENED, last, first, wrong, m.void(wrong["id"]))))
    assert found is not None
    assert (found.cut_over_on, found.settings_version) == ("2026-02-02", 5)


@pytest.mark.parametrize(
    ("code", "given", "rank"),
    [
        ("1", None, 1),
        ("2", None, 2),
        ("3", None, 3),
        ("4", None, None),
        ("0", None, None),
        ("2A", None, None),
        ("2A", 2, 2),
        ("1", 7, 7),
    ],
)
def test_a_grade_has_the_rank_that_was_given_else_the_usual_one(code: str, given: int | None, rank: int | None) -> None:
    # Common practice, no source: 1, 2 and 3 of North America, 1 the most hazardous.
    assert rank_of(code, given=given) == rank
