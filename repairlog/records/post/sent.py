"""Who sent an entry, and when it came in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.access import Actor
from repairlog.entries.entry import Entry, Moments


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """Who sends an entry, and the moments of its sending and of its coming in."""

    actor: Actor
    moments: Moments


def sent_by_id(entries: Sequence[Entry], sent: Sequence[Sent]) -> dict[UUID, Sent]:
    """How each entry was sent; of one that stands twice in the call, the first. `sent`: one an entry."""
    found: dict[UUID, Sent] = {}
    for entry, by in zip(entries, sent, strict=True):
        found.setdefault(entry.id, by)
    return found
