"""What the sheet of a joined number shows besides its own: the sheet of the number under which it goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from repairlog.records.queries.joined import GoesOn, goes_on_as, joined_to
from repairlog.records.queries.leaks import LeakRow, leak_with_id
from repairlog.records.store import Tx
from repairlog.records.story import story_of
from repairlog.web.frame.asking import asker
from repairlog.words import story
from repairlog.words.addresses import address_of_leak
from repairlog.words.story import Telling


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """The leak that the joined number goes on as: its row, its address, the facts at its head, its entries."""

    leak: LeakRow
    address: str
    facts: Sequence[Any]
    entries: Sequence[Telling]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """`goes_on`: under which numbers; None where it was not joined. `other`: the sheet that is shown beside its own;
    None where there is none to show. `joined_here`: id and number of the leaks that were joined to this one."""

    goes_on: GoesOn | None
    other: Other | None
    joined_here: Sequence[tuple[UUID, str]]


def joined_of(tx: Tx, leak: UUID) -> Joined:
    """What is joined to that leak, and what it is joined to, for the asker."""
    scope = asker().scope
    goes_on = goes_on_as(scope, tx, leak=leak)
    other = _other(tx, goes_on.ends_at) if goes_on and goes_on.ends_at and not goes_on.open else None
    return Joined(goes_on=goes_on, other=other, joined_here=joined_to(scope, tx, leak=leak))


def _other(tx: Tx, leak: UUID) -> Other | None:
    row, told = leak_with_id(asker().scope, tx, leak=leak), story_of(asker().scope, tx, leak=leak)
    if row is None or told is None:
        return None
    return Other(leak=row, address=address_of_leak(row), facts=story.head(told), entries=story.tell(told))
