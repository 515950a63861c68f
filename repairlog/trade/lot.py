"""A lot of material as it stands, folded from its own entries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import as_id
from repairlog.trade.amount import amount
from repairlog.trade.answers_to import answers
from repairlog.trade.tied import others_that_are_the_same

Span = tuple[str, str]
"""From a day, until a day; the second empty while it goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """`expires_on`: the last day on which it may be used, `YYYY-MM-DD`; empty where none was said. `area`: id of the
    one it answers to. `status`: in_stock, quarantined, used_up (counted as none), scrapped. `lies_at`, `shelf`: where
    the whole of it was last brought, as said, and by id where that is on the books. `quarantined`: when it was, in
    order. `scrapped_on`: when the whole of it was. `releases`: days on which it was released; `same`: the records that
    this one is kept for. `received_on`: the day on which it came in, empty where nobody knows it."""

    id: UUID
    area: str
    item: str
    lot_number: str
    expires_on: str
    void: bool
    status: str = "in_stock"
    lies_at: str = ""
    shelf: UUID | None = None
    quarantined: tuple[Span, ...] = ()
    scrapped_on: str = ""
    releases: tuple[str, ...] = ()
    received_on: str = ""
    same: tuple[UUID, ...] = ()


def lot(entries: Sequence[Standing]) -> Lot | None:
    """The lot that these entries tell of; None if none of them receives it."""
    received = next((entry for entry in entries if entry.kind == "lot_received"), None)
    if received is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    spans, scrapped_on = quarantines(live), _scrapped_on(live)
    brought = [each for each in live if each.kind == "lot_moved" and not each.text("amount")]
    return Lot(
        id=received.id,
        area=str(answers(received, live).now),
        item=received.text("item"),
        lot_number=received.text("lot_number"),
        expires_on=received.text("expires_on"),
        void=received.void is not None,
        status=_status(live, quarantined=bool(spans) and not spans[-1][1], scrapped=bool(scrapped_on)),
        lies_at=brought[-1].text("named") if brought else received.text("shelf"),
        shelf=as_id(brought[-1].text("shelf")) if brought else None,
        quarantined=spans,
        scrapped_on=scrapped_on,
        releases=tuple(entry.on for entry in live if entry.kind == "lot_released"),
        received_on="" if "happened_known" in received.understood else received.on,
        same=tuple(sorted(other for _says_so, other in others_that_are_the_same(entries))),
    )


def quarantines(live: Sequence[Standing]) -> tuple[Span, ...]:
    """When it was quarantined, in order. `live`: its entries that stand, in the order they happened. Quarantined again
    while it is so already, it goes on; released while it is not, nothing ends."""
    spans: list[Span] = []
    for entry in live:
        goes_on = bool(spans) and not spans[-1][1]
        if entry.kind == "lot_quarantined" and not goes_on:
            spans.append((entry.on, ""))
        elif entry.kind == "lot_released" and goes_on:
            spans[-1] = (spans[-1][0], entry.on)
    return tuple(spans)


def _scrapped_on(live: Sequence[Standing]) -> str:
    """The day on which the whole lot was scrapped; empty where it was not, or more of it was counted since."""
    on = ""
    for entry in live:
        if entry.kind == "lot_scrapped" and not entry.text("amount"):
            on = entry.on
        elif entry.kind == "lot_counted" and not _is_none(entry):
            on = ""
    return on


def _status(live: Sequence[Standing], *, quarantined: bool, scrapped: bool) -> str:
    if scrapped:
        return "scrapped"
    counted = [entry for entry in live if entry.kind == "lot_counted"]
    if counted and _is_none(counted[-1]):
        return "used_up"
    return "quarantined" if quarantined else "in_stock"


def _is_none(counted: Standing) -> bool:
    """Whether it was counted and none of it was there; a count that nobody can read tells nothing."""
    read = amount(counted.text("amount"))
    return read is not None and read.number == 0


def is_expired(of: Lot, *, on: str) -> bool:
    """Whether the lot had expired on that day (`YYYY-MM-DD`). The last day itself is not expired.

    Common practice, no source: a date marked on material is the last day of its use.
    """
    return bool(of.expires_on) and of.expires_on < on


def was_quarantined(of: Lot, *, on: str) -> bool:
    """Whether it was quarantined all of that day. On the day on which it was quarantined or released it may have been
    used before or after: that day accuses nobody."""
    return any(began < on and (not ended or on < ended) for began, ended in of.quarantined)


def quarantined_as_one(records: Sequence[Lot]) -> tuple[Span, ...]:
    """When a lot was quarantined that stands under several records. Released on one of them, it is released; released
    on the very day on which another quarantined it, that one goes on, since nobody knows which came first."""
    return tuple(_until_released(span, of, records) for of in records for span in of.quarantined)


def _until_released(span: Span, of: Lot, records: Sequence[Lot]) -> Span:
    began, ended = span
    released = [on for other in records if other is not of for on in other.releases if began < on]
    return began, min(filter(None, (ended, *released)), default="")


def was_scrapped(of: Lot, *, on: str) -> bool:
    """Whether the whole of it was scrapped before that day."""
    return bool(of.scrapped_on) and of.scrapped_on < on


def not_there_yet(records: Sequence[Lot], *, on: str) -> str:
    """The day on which a lot came in first, by all its records, where that is after that day; empty where it is not. On
    the day itself it may have been used after it came: that day accuses nobody; and where one record does not know its
    day nothing is said."""
    came = [each.received_on for each in records if not each.void]
    return min(came) if came and all(came) and on < min(came) else ""
