"""What the pages of stores say: how a lot stands, until when it may be used, how much is left."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date

from repairlog.records.queries.stores import LotRow
from repairlog.trade.amount import left, total
from repairlog.trade.area import Area
from repairlog.words import _, of_number
from repairlog.words.days import day

STATUSES = ("in_stock", "quarantined", "used_up", "scrapped")

TAKEN = ("lot_used", "lot_scrapped")
"""Kinds of entries that take of a lot."""


def status(code: str) -> str:
    """How a lot stands; KeyError for another code."""
    return {
        "in_stock": _("In stock"),
        "quarantined": _("Quarantined"),
        "used_up": _("Used up"),
        "scrapped": _("Scrapped"),
    }[code]


def until(expires_on: str, *, on: str) -> str:
    """Until when it may be used, seen from that day; the last day is one on which it may."""
    if not expires_on:
        return _("no last day on the books")
    days = (date.fromisoformat(expires_on) - date.fromisoformat(on)).days
    if days < 0:
        ago = of_number("expired {days} day ago", "expired {days} days ago", number=-days).format(days=-days)
        return f"{day(expires_on)}, {ago}"
    if days == 0:
        return _("{day}, today is its last day").format(day=day(expires_on))
    ahead = of_number("{days} day left", "{days} days left", number=days).format(days=days)
    return f"{day(expires_on)}, {ahead}"


def number_of(number: int) -> str:
    """So many lots in words."""
    return of_number("{number} lot", "{number} lots", number=number).format(number=number)


def columns(areas: Sequence[Area], *, on: str) -> Mapping[str, Callable[[LotRow], str | int]]:
    """The columns of the list as a file. `on`: the day from which days left are counted."""
    names = {area.id: area.name for area in areas}
    return {
        _("Lot number"): lambda lot: lot.lot_number,
        _("Item"): lambda lot: lot.item,
        _("Maker"): lambda lot: lot.maker,
        _("Area"): lambda lot: names.get(lot.area, ""),
        _("Status"): lambda lot: status(lot.status),
        _("Last day of use"): lambda lot: lot.expires_on,
        _("Days left"): lambda lot: _days_left(lot, on=on),
        _("Lies at"): lambda lot: lot.lies_at,
        _("Received"): lambda lot: lot.received,
        _("Received on"): lambda lot: lot.received_on,
    }


def _days_left(lot: LotRow, *, on: str) -> str | int:
    return (date.fromisoformat(lot.expires_on) - date.fromisoformat(on)).days if lot.expires_on else ""


def amounts(texts: Iterable[str], *, like: str) -> str:
    """What these amounts come to, unit by unit, and what could not be counted with them; empty where nothing was.
    `like`: an amount that shows how more than one is written."""
    found = total(texts, like=like)
    return ", ".join([*(str(each) for each in found.sums), *(f"“{each}”" for each in found.unread)])


def should_be_there(received: str, taken: Sequence[str]) -> str:
    """What the book says should be there: what came, less what was taken; said so where it cannot be counted."""
    rest = left(received, taken)
    return str(rest) if rest else _("cannot be counted from what is written")
