"""A call as it stands: always a fold over all its entries in the order they happened, never an increment."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.answers_to import answers
from repairlog.trade.call_gaps import gaps
from repairlog.trade.gap import Gap
from repairlog.trade.set_aside import marked

STAGES = {"call_sent": "sent", "call_on_way": "on_way", "call_on_site": "on_site"}
"""The status that a call has after each of these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Who:
    """Who has a call: ids as text of crew and person, a name where neither is on the books; each may be empty."""

    crew: str = ""
    person: str = ""
    named: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """`received`: the entry that opened it. `area`: the one it answers to. `status`: received, sent, on_way, on_site,
    ended, received_in_error. `who`: who was named last. `sent`, `on_way`, `on_site`: the first entry of each on the
    trip that counts; `outcome`: the one that counts. `reviewed`: somebody accepted that outcome."""

    received: Standing
    area: UUID
    status: str
    who: Who
    sent: Standing | None
    on_way: Standing | None
    on_site: Standing | None
    outcome: Standing | None
    reviewed: bool
    gaps: tuple[Gap, ...] = field(default=())


def call(entries: Sequence[Standing]) -> Call | None:
    """The call that these entries tell of; None if none of them opens it.

    `entries`: all that belong to it as they stand, void ones too, in any order. Whoever is sent after an outcome goes
    there once more: the call is not ended then, and the times of the trip before are past.
    """
    received = next((entry for entry in entries if entry.kind == "call_received"), None)
    if received is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    trip = _last_trip(live)
    outcome = next((entry for entry in reversed(trip) if entry.kind == "call_outcome"), None)
    return Call(
        received=received,
        area=answers(received, live).now,
        status=_status(received, trip, outcome),
        who=_who(trip),
        sent=_first(trip, "call_sent"),
        on_way=_first(trip, "call_on_way"),
        on_site=_first(trip, "call_on_site"),
        outcome=outcome,
        reviewed=outcome is not None and _is_accepted(trip[trip.index(outcome) :]),
        gaps=tuple(marked(gaps(received, live), live)),
    )


def _last_trip(live: Sequence[Standing]) -> Sequence[Standing]:
    """The entries from the last sending that follows an outcome on; all of them where there is none."""
    ended, begins = False, 0
    for place, entry in enumerate(live):
        if entry.kind == "call_sent" and ended:
            begins, ended = place, False
        ended = ended or entry.kind == "call_outcome"
    return live[begins:]


def _status(received: Standing, trip: Iterable[Standing], outcome: Standing | None) -> str:
    if received.void is not None:
        return "received_in_error"
    if outcome is not None:
        return "ended"
    reached = {STAGES[entry.kind] for entry in trip if entry.kind in STAGES}
    return next((stage for stage in ("on_site", "on_way", "sent") if stage in reached), "received")


def _who(trip: Iterable[Standing]) -> Who:
    """Whom the last entry names that names anybody."""
    who = Who()
    for entry in trip:
        if entry.kind in STAGES and any(entry.text(name) for name in ("crew", "person", "named")):
            who = Who(crew=entry.text("crew"), person=entry.text("person"), named=entry.text("named"))
    return who


def _first(trip: Iterable[Standing], kind: str) -> Standing | None:
    return next((entry for entry in trip if entry.kind == kind), None)


def _is_accepted(after: Iterable[Standing]) -> bool:
    """Whether the last word on it is that it is accepted."""
    words = [entry.text("outcome") for entry in after if entry.kind == "call_reviewed"]
    return bool(words) and words[-1] == "accepted"
