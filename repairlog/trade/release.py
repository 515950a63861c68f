"""Over which hours a leak's gas came out, and at which line pressure, as its own entries tell."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.entries.moments import read_moment
from repairlog.trade.leak import Leak
from repairlog.trade.sources import sources
from repairlog.trade.unworkable import Unworkable
from repairlog.units import split_canonical

STOPS_GAS = ("meter_valve", "curb_valve", "main_valve", "squeeze_off", "stopper", "temporary_clamp")
"""By what gas that is under control does not come out any more; venting only leads it elsewhere."""

NOT_OURS = ("customers", "other_gas", "opened_in_error", "joined", "handed_over")
"""Endings after which nothing that came out is counted for this leak."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """`begins`, `ends`: UTC. `pressure`: of the line, as it was typed; empty where nobody said it."""

    begins: datetime
    ends: datetime
    pressure: str

    @property
    def hours(self) -> float:
        """Elapsed."""
        return (self.ends - self.begins) / timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """`stretches`: without those in which the gas was stopped. `at_most`: whether an hour was not known, so that whole
    days were counted. `goes_on`: whether it still came out at the moment up to which it was asked for."""

    stretches: tuple[Stretch, ...]
    at_most: bool
    goes_on: bool

    @property
    def hours(self) -> float:
        """Elapsed, all of them."""
        return sum(each.hours for each in self.stretches)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """What changes at a moment: `flows` on or off, or not at all where it is None; `pressure`, where one is told."""

    at: datetime
    day_alone: bool = False
    flows: bool | None = None
    pressure: str = ""


def release(leak: Leak, live: Sequence[Standing], *, until: datetime, source: UUID | None = None) -> Release:
    """The hours from the day on which the leak was found to the end of its last source, or of `source` alone, or to
    `until`. What stops or opens the whole leak goes for each source.

    `live`: its entries that stand, in the order in which they happened. Where only a day is known, the gas is counted
    from its beginning, or to its end. Raises `not_our_gas`, `found_not_known`.
    """
    if leak.status == "opened_in_error" or (leak.ending and leak.ending.entry.text("how") in NOT_OURS):
        raise Unworkable("not_our_gas", field="leak")
    if "happened_known" in leak.opened.understood:
        raise Unworkable("found_not_known", field="leak")
    begins, day_alone = _moment(leak.opened, "discovered", ends=False) or _happened(leak.opened, ends=False)
    of = {source} if source else {each.id for each in leak.sources}
    changes = [each for each in _changes(leak, live, of=of) if each.at < until]
    return _between(begins, until, changes, pressure=_normal_pressure(live, of), at_most=day_alone)


def _between(begins: datetime, until: datetime, changes: Sequence[_Change], *, pressure: str, at_most: bool) -> Release:
    found: list[Stretch] = []
    at, flows = begins, True
    for change in sorted(changes, key=lambda each: each.at):
        now = max(at, change.at)
        cuts = flows and (change.flows is False or change.pressure not in ("", pressure))
        at_most |= change.day_alone and now > at and (cuts or change.flows is True)
        if cuts and now > at:
            found.append(Stretch(begins=at, ends=now, pressure=pressure))
        at = now if cuts or not flows else at
        flows = flows if change.flows is None else change.flows
        pressure = change.pressure or pressure
    if flows and until > at:
        found.append(Stretch(begins=at, ends=until, pressure=pressure))
    return Release(stretches=tuple(found), at_most=at_most, goes_on=flows)


def _changes(leak: Leak, live: Sequence[Standing], *, of: Set[UUID]) -> Iterator[_Change]:
    open_sources: set[UUID | None] = {*of}
    outcome = {each.id: each for each in leak.attempts}
    for entry in live:
        if entry.kind == "repair_attempted":
            done = outcome[entry.id]
            if done.source not in (None, *of):
                continue
            open_sources -= {done.source} if done.outcome == "tight" else set()
            stopped = done.outcome == "tight" and (not open_sources or done.source is None)
            yield from _of_attempt(entry, stopped=stopped, alone=len(of) < 2 or done.source is None)
        elif entry.kind == "moment_noted" and entry.text("controlled_by") in STOPS_GAS:
            yield _change(entry, flows=False)
        elif entry.kind == "leak_reopened":
            open_sources = {*of}
            yield _change(entry, flows=True)
    if leak.ending:
        yield _change(leak.ending.entry, flows=False)


def _of_attempt(entry: Standing, *, stopped: bool, alone: bool) -> Iterator[_Change]:
    """The pressure found, the gas stopped and restored; after a tight one of the last source it does not come back.

    `alone`: whether what is stopped there is all that is counted; else, with nobody saying when it was restored, the
    other sources go on.
    """
    found = _pressure(entry, "pressure_found")
    off, on = _moment(entry, "gas_stopped", ends=True), _moment(entry, "gas_restored", ends=False)
    if found is not None:  # before anybody touched the gas
        first = min(filter(None, (_moment(entry, "exposed", ends=False), off, _happened(entry, ends=True))))
        yield _Change(at=first[0], day_alone=first[1], flows=None if found else False, pressure=found)
    if off and (alone or stopped or on):
        yield _Change(at=off[0], day_alone=off[1], flows=False)
    if stopped:
        at = off or _moment(entry, "fitted", ends=True) or _happened(entry, ends=True)
        yield _Change(at=at[0], day_alone=at[1], flows=False)
    elif on:
        yield _Change(at=on[0], day_alone=on[1], flows=True, pressure=_pressure(entry, "pressure_restored") or "")


def _pressure(entry: Standing, name: str) -> str | None:
    """The pressure as it was typed, empty where it drove nothing out; None where none was understood."""
    canonical = entry.understood.get(name)
    if not canonical:
        return None
    read = split_canonical(str(canonical))
    return "" if read.qualifier == "gauge" and read.value <= 0 else entry.text(name)


def _normal_pressure(live: Sequence[Standing], of: Set[UUID]) -> str:
    """The operating pressure of the first of those sources for which it was told, else of the first of any; what it
    turned out to be since, for gas flowed by what the pipe is and not by what was known of it."""
    added = sorted(sources(live), key=lambda each: each.id not in of)
    told = [_pressure(each.told_by["pressure"], "pressure") for each in added if "pressure" in each.told_by]
    return next((each for each in told if each), "")


def _change(entry: Standing, *, flows: bool) -> _Change:
    at, day_alone = _happened(entry, ends=not flows)
    return _Change(at=at, day_alone=day_alone, flows=flows)


def _happened(entry: Standing, *, ends: bool) -> tuple[datetime, bool]:
    found = _moment(entry, "happened", ends=ends)
    assert found is not None
    return found


def _moment(entry: Standing, stem: str, *, ends: bool) -> tuple[datetime, bool] | None:
    """A moment and False; of a day alone its beginning, or its end where `ends`, and True; None where nobody said."""
    if at := entry.understood.get(f"{stem}_at"):
        return read_moment(at), False
    on = entry.understood.get(f"{stem}_on")
    if not on:
        return None
    day = date.fromisoformat(str(on)) + timedelta(days=int(ends))
    return datetime.combine(day, time(), tzinfo=ZoneInfo(str(entry.understood["zone"]))), True
