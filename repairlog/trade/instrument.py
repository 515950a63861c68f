"""An instrument as it stands: its calibrations by date, and whether one of them held on a day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.answers_to import answers
from repairlog.trade.tied import others_that_are_the_same


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """`on`: its day; `next_due_on`: the last day on which it holds, as on the certificate; empty where it says none.
    `result`: in_tolerance, adjusted_to or out_of_tolerance."""

    entry: UUID
    on: str
    result: str
    next_due_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """`calibrations`: in the order in which they happened. `checked_on`, `check`: the last check with gas and what came
    of it; `retired_on`: empty while it is in use; `same`: the records that this one is kept for."""

    id: UUID
    area: str
    mark: str
    what: str
    retired_on: str
    checked_on: str
    check: str
    void: bool
    calibrations: tuple[Calibration, ...]
    same: tuple[UUID, ...] = ()


def was_calibrated(records: Sequence[Instrument], *, on: str) -> bool:
    """Whether the last calibration before or on that day held then, of an instrument that stands under these records.
    Its last day counts. Of two records that were calibrated on one day nobody knows which came last: one that held is
    enough.

    Common practice, no source: the day on a certificate is the last day of use without a new one.
    """
    lasts = [last for of in records if (last := _last_before(of, on))]
    day = max((each.on for each in lasts), default="")
    return any(_holds(each, on) for each in lasts if each.on == day)


def was_retired(records: Sequence[Instrument], *, on: str) -> str:
    """The day on which the last of these records was retired, where that was before that day; empty while one is in
    use."""
    days = [of.retired_on for of in records]
    return max(days) if all(days) and max(days) < on else ""


def _last_before(of: Instrument, on: str) -> Calibration | None:
    return next((each for each in reversed(of.calibrations) if each.on <= on), None)


def _holds(of: Calibration, on: str) -> bool:
    return of.result != "out_of_tolerance" and (not of.next_due_on or on <= of.next_due_on)


def instrument(entries: Sequence[Standing]) -> Instrument | None:
    """The instrument that these entries tell of; None if none of them adds it."""
    added = next((entry for entry in entries if entry.kind == "instrument_added"), None)
    if added is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    retired = [entry for entry in live if entry.kind == "instrument_retired"]
    checks = [entry for entry in live if entry.kind == "instrument_checked"]
    return Instrument(
        id=added.id,
        area=str(answers(added, live).now),
        mark=added.text("mark"),
        what=added.text("what"),
        retired_on=retired[-1].on if retired else "",
        checked_on=checks[-1].on if checks else "",
        check=checks[-1].text("result") if checks else "",
        void=added.void is not None,
        calibrations=tuple(_calibration(entry) for entry in live if entry.kind == "instrument_calibrated"),
        same=tuple(sorted(other for _says_so, other in others_that_are_the_same(entries))),
    )


def _calibration(entry: Standing) -> Calibration:
    return Calibration(entry=entry.id, on=entry.on, result=entry.text("result"), next_due_on=entry.text("next_due_on"))
