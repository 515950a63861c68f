"""The order of what happened, and when it was written."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from repairlog.entries.entry import Moments, offset_ms, order_of_happening, written_truly
from tests.makers import book as m
from tests.makers.told import told

RECEIVED = datetime(2026, 3, 5, 15, 20, tzinfo=UTC)
LEAK = m.new_id()


def in_order(*happened: str) -> list[str]:
    """What happened when, as it is told, where each was entered after the one before."""
    entries = [told(index, m.grade(LEAK, happened=typed)) for index, typed in enumerate(happened)]
    return [entry.text("happened") for entry in sorted(entries, key=order_of_happening)]


def test_days_come_in_their_order_whatever_was_entered_first() -> None:
    assert in_order("2026-03-05", "2026-03-03", "2026-03-04") == ["2026-03-03", "2026-03-04", "2026-03-05"]


def test_within_a_day_come_moments_then_days_without_an_hour_then_days_not_known() -> None:
    not_known = told(0, m.grade(LEAK, happened="2026-03-03", happened_known="on_or_before"))
    day = told(1, m.grade(LEAK, happened="2026-03-03"))
    late = told(2, m.grade(LEAK, happened="2026-03-03 23:59"))
    early = told(3, m.grade(LEAK, happened="2026-03-03 00:00"))
    assert sorted([not_known, day, late, early], key=order_of_happening) == [early, late, day, not_known]


def test_what_happened_at_one_moment_is_told_as_it_was_entered() -> None:
    entries = [told(index, m.grade(LEAK, happened="2026-03-03 08:00")) for index in (7, 2, 5)]
    assert [entry.index for entry in sorted(entries, key=order_of_happening)] == [2, 5, 7]


def test_a_legal_day_comes_before_the_moment_in_utc() -> None:
    late = told(0, m.grade(LEAK), understood={"happened_on": "2026-03-03", "happened_at": "2026-03-04T04:30:00.000Z"})
    early = told(1, m.grade(LEAK), understood={"happened_on": "2026-03-04", "happened_at": "2026-03-04T04:00:00.000Z"})
    assert sorted([early, late], key=order_of_happening) == [late, early]


def test_an_entry_was_written_when_it_was_received_where_no_device_says_else() -> None:
    assert written_truly(None, Moments(received=RECEIVED, offset_ms=5000)) == RECEIVED


@pytest.mark.parametrize(
    ("sent", "measured", "offset"),
    [
        (None, None, None),
        (timedelta(minutes=2), None, 120_000),
        (timedelta(minutes=-2), None, -120_000),
        (timedelta(minutes=2), -300, -300),
        (timedelta(minutes=2), 0, 0),
        (timedelta(microseconds=-1), None, -1),
        (timedelta(0), None, 0),
        (timedelta(microseconds=999), None, 0),
    ],
)
def test_the_offset_is_the_measured_one_else_sent_less_received(
    sent: timedelta | None, measured: int | None, offset: int | None
) -> None:
    at = RECEIVED + sent if sent is not None else None
    assert offset_ms(Moments(received=RECEIVED, sent=at, offset_ms=measured)) == offset


@pytest.mark.parametrize(
    ("offset", "truly"),
    [
        (0, timedelta(minutes=-10)),
        (600_000, timedelta(minutes=-20)),
        (-599_000, timedelta(seconds=-1)),
        (-600_000, timedelta(0)),
        (-601_000, timedelta(0)),
    ],
    ids=["right", "ten minutes fast", "slow, one second left", "slow by as much", "slow by more"],
)
def test_the_offset_is_taken_off_and_nothing_is_written_after_it_was_received(offset: int, truly: timedelta) -> None:
    written = RECEIVED - timedelta(minutes=10)
    assert written_truly(written, Moments(received=RECEIVED, offset_ms=offset)) == RECEIVED + truly


@given(st.integers(-(10**9), 10**9), st.integers(-(10**9), 10**9))
def test_no_clock_makes_an_entry_later_than_its_coming_in(seconds: int, offset: int) -> None:
    written = RECEIVED + timedelta(seconds=seconds)
    assert written_truly(written, Moments(received=RECEIVED, offset_ms=offset)) <= RECEIVED


@pytest.mark.parametrize(
    ("path", "there"),
    [
        ("pressure", "45 psi"),
        ("coating", ""),
        ("readings.r2.value", "60 %LEL"),
        ("readings.r2.gas", ""),
        ("readings.r9.value", ""),
        ("nothing.r1.value", ""),
    ],
)
def test_what_was_said_is_found_by_its_path(path: str, there: str) -> None:
    said = m.source(LEAK) | {"readings": m.visit(LEAK)["readings"]}
    assert told(0, said).said_at(path) == there
