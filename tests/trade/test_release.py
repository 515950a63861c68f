"""Over which hours a leak's gas came out: found to tight, with the gas stopped in between, at the pressures told.

Decided by us, no source, but that gas is counted from when it was known of until the leak is tight: common practice,
no source.
"""

from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID

import pytest

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.standing import standing
from repairlog.trade.leak import leak
from repairlog.trade.release import Release, release
from repairlog.trade.rests import Rests
from repairlog.trade.unworkable import Unworkable
from repairlog.units import read
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.told import told

LEAK = m.new_id()
OPENED = {"kind": "leak_opened", "id": LEAK, "area": m.new_id(), "happened": "2026-03-03 08:00"}
SOURCE = m.source(LEAK, happened="2026-03-03 09:00", pressure="60 psi")
NEVER = datetime(2026, 3, 10, tzinfo=UTC)


def entry(index: int, said: dict[str, Any]) -> Standing:
    """The entry with its moments and pressures understood: they are typed in UTC, and in psi gauge."""
    stems = ("discovered", "exposed", "gas_stopped", "fitted", "gas_restored")
    understood: dict[str, str] = {}
    for stem in (stem for stem in stems if stem in said):
        day, _, hour = said[stem].partition(" ")
        understood |= {f"{stem}_on": day} | ({f"{stem}_at": f"{day}T{hour}:00.000Z"} if hour else {})
    for name in ("pressure", "pressure_found", "pressure_restored"):
        if str(said.get(name, "")).endswith(" psi"):
            understood[name] = read(said[name], "pressure").canonical
    return told(index, said, understood=understood)


def found(
    *said: dict[str, Any], opened: dict[str, Any] | None = None, until: datetime = NEVER, source: str = ""
) -> Release:
    stands = standing([entry(index, each) for index, each in enumerate((opened or OPENED, *said))])
    as_is = leak(stands, rests=Rests())
    assert as_is is not None
    live = sorted((each for each in stands if each.void is None), key=order_of_happening)
    return release(as_is, live, until=until, source=UUID(source) if source else None)


def spans(of: Release) -> list[tuple[str, str, str]]:
    return [(f"{each.begins:%d %H:%M}", f"{each.ends:%d %H:%M}", each.pressure) for each in of.stretches]


def attempt(**fields: Any) -> dict[str, Any]:
    said = {"source": SOURCE["id"], "happened": "2026-03-05 10:00", "pressure_found": "60 psi"} | fields
    return m.attempt(LEAK, **said)


def test_an_open_leak_loses_gas_until_the_moment_asked_about_and_it_goes_on() -> None:
    for minutes in (-1, 0, 1):
        until = datetime(2026, 3, 3, 8, 0, tzinfo=UTC) + timedelta(minutes=minutes)
        of = found(SOURCE, until=until)
        assert (of.hours, of.goes_on) == (max(minutes, 0) / 60, True)


def test_gas_comes_out_from_when_it_was_discovered_to_when_the_gas_was_stopped_for_the_tight_repair() -> None:
    of = found(
        SOURCE,
        attempt(gas_stopped="2026-03-05 09:40", gas_restored="2026-03-05 10:00", pressure_restored="60 psi"),
        opened=OPENED | {"discovered": "2026-03-03 07:00"},
    )
    assert (spans(of), of.goes_on, of.at_most) == ([("03 07:00", "05 09:40", "60 psi")], False, False)


def test_after_an_attempt_that_is_not_tight_it_goes_on_at_the_pressure_restored() -> None:
    first = attempt(
        outcome="not_tight", gas_stopped="2026-03-04 09:00", gas_restored="2026-03-04 11:00", pressure_restored="30 psi"
    )
    of = found(SOURCE, first, attempt(happened="2026-03-06 10:00", pressure_found="30 psi"))
    assert spans(of) == [("03 08:00", "04 09:00", "60 psi"), ("04 11:00", "06 10:00", "30 psi")]
    assert of.hours == 25 + 47


def test_a_pressure_found_to_be_another_begins_a_stretch_of_its_own() -> None:
    of = found(SOURCE, attempt(exposed="2026-03-05 08:00", pressure_found="45 psi"))
    assert spans(of) == [("03 08:00", "05 08:00", "60 psi"), ("05 08:00", "05 10:00", "45 psi")]


def test_two_sources_lose_gas_until_the_last_of_them_is_tight() -> None:
    second = m.source(LEAK, happened="2026-03-03 09:30", pressure="60 psi")
    last = attempt(source=second["id"], happened="2026-03-06 12:00")
    assert spans(found(SOURCE, second, attempt(), last)) == [("03 08:00", "06 12:00", "60 psi")]
    assert spans(found(SOURCE, second, attempt()))[-1][1] == "10 00:00"


def test_each_source_by_itself_loses_gas_until_it_is_tight_at_its_own_pressure() -> None:
    second = m.source(LEAK, happened="2026-03-03 09:30", pressure="30 psi")
    last = attempt(source=second["id"], happened="2026-03-06 12:00", pressure_found="30 psi")
    shut = c.moment(LEAK, moment="gas_under_control", happened="2026-03-06 08:00", controlled_by="main_valve")
    of = [spans(found(SOURCE, second, attempt(), last, shut, source=each["id"])) for each in (SOURCE, second)]
    assert of == [[("03 08:00", "05 10:00", "60 psi")], [("03 08:00", "06 08:00", "30 psi")]]


def test_a_source_that_is_shut_off_for_good_leaves_the_other_going() -> None:
    second = m.source(LEAK, happened="2026-03-03 09:30", pressure="60 psi")
    first = attempt(gas_stopped="2026-03-05 09:00")
    last = attempt(source=second["id"], happened="2026-03-06 12:00")
    assert spans(found(SOURCE, second, first, last)) == [("03 08:00", "06 12:00", "60 psi")]


@pytest.mark.parametrize(
    ("by", "ends"), [("main_valve", "03 09:30"), ("squeeze_off", "03 09:30"), ("venting", "10 00:00")]
)
def test_a_shut_valve_stops_it_and_venting_does_not(by: str, ends: str) -> None:
    shut = c.moment(LEAK, moment="gas_under_control", happened="2026-03-03 09:30", controlled_by=by)
    assert spans(found(SOURCE, shut)) == [("03 08:00", ends, "60 psi")]


def test_a_line_found_without_pressure_loses_nothing() -> None:
    of = found(SOURCE, attempt(happened="2026-03-05 10:00", exposed="2026-03-04 10:00", pressure_found="0 psi"))
    assert spans(of) == [("03 08:00", "04 10:00", "60 psi")]


def test_a_day_without_its_hour_counts_whole_and_says_at_most() -> None:
    of = found(SOURCE, attempt(happened="2026-03-05"), opened=OPENED | {"happened": "2026-03-03"})
    assert (spans(of), of.at_most) == ([("03 00:00", "06 00:00", "60 psi")], True)


def test_a_leak_opened_again_loses_gas_again() -> None:
    of = found(SOURCE, attempt(), m.reopened(LEAK, happened="2026-03-07 10:00"))
    assert (spans(of), of.goes_on) == ([("03 08:00", "05 10:00", "60 psi"), ("07 10:00", "10 00:00", "60 psi")], True)


def test_the_ending_of_the_day_of_the_repair_takes_nothing_back() -> None:
    tight = attempt()
    of = found(SOURCE, tight, m.ending(LEAK, [tight["id"]], happened="2026-03-05"))
    assert (spans(of), of.at_most) == ([("03 08:00", "05 10:00", "60 psi")], False)


@pytest.mark.parametrize("how", ["customers", "other_gas", "joined"])
def test_what_is_not_this_leak_s_gas_is_refused(how: str) -> None:
    with pytest.raises(Unworkable, match="not_our_gas"):
        found(SOURCE, m.ending(LEAK, how=how, happened="2026-03-05", joined_to=str(UUID(int=7))))


def test_a_day_known_only_as_on_or_before_starts_no_clock() -> None:
    with pytest.raises(Unworkable, match="found_not_known"):
        found(SOURCE, opened=OPENED | {"happened_known": "on_or_before", "happened": "2016-12-31"})
