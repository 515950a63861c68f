"""Numbers that were joined to another: whether the other goes on, or the hazard would be open under none of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import as_id
from repairlog.trade.attempts import attempts
from repairlog.trade.ending import Ending, ending_that_counts, endings

IN_A_RING, IN_ERROR = "joined_in_a_ring", "joined_to_one_opened_in_error"
"""Why a leak that was joined to another stays open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """What others that are joined to a leak rest on. `to`: the leak under which it would go on, if every number that
    was joined led on; None where it was not joined. `in_error`: it was opened in error."""

    id: UUID
    to: UUID | None
    in_error: bool


def join(entries: Sequence[Standing]) -> Join | None:
    """How the leak that these entries tell of was joined; None if none of them opens it."""
    opened = next((entry for entry in entries if entry.kind == "leak_opened"), None)
    if opened is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    found = [entry.id for entry in live if entry.kind == "source_added"]
    ends = endings(live, done={each.id: each for each in attempts(live)}, sources=found)
    would = ending_that_counts(ends) if opened.void is None else None
    in_error = opened.void is not None or (would is not None and would.entry.text("how") == "opened_in_error")
    return Join(id=opened.id, to=joined_to(would), in_error=in_error)


def joined_to(ending: Ending | None) -> UUID | None:
    """The leak to which that ending joins its own."""
    return as_id(ending.entry.text("joined_to")) if ending and ending.entry.text("how") == "joined" else None


def led_on(ends: Sequence[Ending], *, leak: UUID, joins: Mapping[UUID, Join]) -> list[Ending]:
    """The same endings of that leak, without those that join it to a number under which nothing goes on: one that was
    opened in error, or one that is joined to this leak in turn. `joins`: of the leaks that they lead to; of one that is
    not here nothing is known, and it counts as going on."""
    return [_led_on(each, leak, joins) for each in ends]


def _led_on(ending: Ending, leak: UUID, joins: Mapping[UUID, Join]) -> Ending:
    to = joined_to(ending)
    if to is None or ending.why_not or ending.reopened:
        return ending
    if to in joins and joins[to].in_error:
        return replace(ending, why_not=(IN_ERROR,))
    return replace(ending, why_not=(IN_A_RING,)) if _leads_back(to, leak, joins) else ending


def _leads_back(to: UUID, leak: UUID, joins: Mapping[UUID, Join]) -> bool:
    """Whether the way from that number leads to the leak; a ring farther on is another's."""
    seen: set[UUID] = set()
    next_one: UUID | None = to
    while next_one is not None and next_one not in seen:
        if next_one == leak:
            return True
        seen.add(next_one)
        next_one = joins[next_one].to if next_one in joins else None
    return False
