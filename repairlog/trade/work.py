"""Who has which work on a leak in hand, and what it waits on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from repairlog.entries.entry import Standing
from repairlog.trade.attempts import Attempt

OUTLASTS_THE_LEAK = ("follow_up_inspection", "restoration", "other_work")
"""Work that is still owed when the leak is ended."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheduled:
    """Scheduled for repair: `since`: the day on which that was said; `for_on`: for which day, empty where none was."""

    since: str
    for_on: str


def in_hand(live: Sequence[Standing], *, done: Sequence[Attempt], is_open: bool) -> list[Standing]:
    """The entries by which work was given that is still to be done, the last of each sort of work.

    `live`: the leak's entries that stand, in the order they happened; `done`: its attempts; `is_open`: it is not ended.
    Work is done when what it asks for was done after it was given, or when somebody says so; to give the same sort of
    work again is to give it to somebody else.
    """
    last = {entry.text("work"): place for place, entry in enumerate(live) if entry.kind == "work_given"}
    settled = {entry.text("given") for entry in live if entry.kind == "work_settled"}
    tight = {str(each.id) for each in done if each.outcome == "tight"}
    return [
        live[place]
        for work, place in last.items()
        if (is_open or work in OUTLASTS_THE_LEAK)
        and live[place].text("id") not in settled
        and not any(_does(after, work, tight=tight) for after in live[place + 1 :])
    ]


def _does(entry: Standing, work: str, *, tight: set[str]) -> bool:
    if entry.kind == "visit":
        return entry.text("outcome") == "looked" and work in (entry.text("purpose"), "first_investigation")
    if entry.kind == "repair_attempted" and entry.text("id") in tight:
        return work == "repair" or (work == "permanent_repair" and entry.text("lasting") == "permanent")
    return False


def waits(live: Sequence[Standing]) -> Standing | None:
    """The entry that says what the work on an open leak waits on; None where it goes on, or was tried since."""
    last = [entry for entry in live if entry.kind in ("work_waiting", "work_goes_on", "repair_attempted")][-1:]
    return next((entry for entry in last if entry.kind == "work_waiting"), None)


def scheduled(live: Sequence[Standing]) -> Scheduled | None:
    """Whether the leak is scheduled for repair: the last that was said of it."""
    last = [entry for entry in live if entry.kind == "scheduled_for_repair"][-1:]
    said = next((entry for entry in last if entry.text("scheduled") == "yes"), None)
    return Scheduled(since=said.on, for_on=said.text("for_on")) if said else None
