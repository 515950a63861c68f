"""A lot of material as it stands, folded from its own entries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """`expires_on`: the last day on which it may be used, `YYYY-MM-DD`; empty where none was said. `area`: its id."""

    id: UUID
    area: str
    item: str
    lot_number: str
    expires_on: str
    void: bool


def lot(entries: Sequence[Standing]) -> Lot | None:
    """The lot that these entries tell of; None if none of them receives it."""
    received = next((entry for entry in entries if entry.kind == "lot_received"), None)
    if received is None:
        return None
    return Lot(
        id=received.id,
        area=received.text("area"),
        item=received.text("item"),
        lot_number=received.text("lot_number"),
        expires_on=received.text("expires_on"),
        void=received.void is not None,
    )


def is_expired(of: Lot, *, on: str) -> bool:
    """Whether the lot had expired on that day (`YYYY-MM-DD`). The last day itself is not expired.

    Common practice, no source: a date marked on material is the last day of its use.
    """
    return bool(of.expires_on) and of.expires_on < on
