"""What the pages of stores say: how a lot stands, until when it may be used, what happened to it, how much is left."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.fields import Field
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS
from repairlog.records.queries.named import Named
from repairlog.records.queries.stores import LotRow
from repairlog.trade.amount import left, total
from repairlog.trade.area import Area
from repairlog.words import _, boxes, of_number
from repairlog.words.days import day

STATUSES = ("in_stock", "quarantined", "used_up", "scrapped")

TAKEN = ("lot_used", "lot_scrapped")
"""Kinds of entries that take of a lot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """An entry of a lot's story: its day, what happened, what was said of it, and who did it."""

    day: str
    title: str
    said: tuple[tuple[str, str], ...]
    by: str
    void: bool


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


def filter_wrong(name: str, *, got: str) -> str:
    """What is said beside a field of the filter that could not be read; KeyError for another name."""
    return {
        "area": _("There is no area “{got}” here; it is left out for now."),
        "status": _("There is no status “{got}”; it is left out for now."),
        "days": _("“{got}” is no whole number of days up to 36500; it is left out for now."),
    }[name].format(got=got)


def shown(number: int, *, more: bool) -> str:
    """How many lots are on the page, and whether that is all of them."""
    if more:
        return _("{number} shown, more follow").format(number=number)
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


def told(entries: Sequence[Standing], named: Mapping[UUID, Named]) -> list[Happened]:
    """What happened to a lot, in order."""
    return [_told(entry, named) for entry in entries]


def _told(entry: Standing, named: Mapping[UUID, Named]) -> Happened:
    kind = KINDS[entry.kind]
    left_out = {"happened", "happened_known", "area", kind.folds_in}
    fields = [field for field in kind.fields if field.name not in left_out and entry.text(field.name)]
    return Happened(
        day=day(entry.on),
        title=boxes.label(kind.says),
        said=tuple((_label(field), _said(field, entry.text(field.name), named)) for field in fields),
        by=", ".join(_who(row, named) for row in entry.by.get("did", ())),
        void=entry.void is not None,
    )


def _label(field: Field) -> str:
    """What the field says, without what a box adds for whoever fills it in."""
    return boxes.label(field.says).partition(";")[0]


def _said(field: Field, text: str, named: Mapping[UUID, Named]) -> str:
    return day(text) if field.kind == "day" else _value(text, named)


def _value(text: str, named: Mapping[UUID, Named]) -> str:
    id = as_id(text)
    return named[id].called if id is not None and id in named else text


def _who(row: Mapping[str, str], named: Mapping[UUID, Named]) -> str:
    return _value(row["person"], named) if "person" in row else row.get("named", "")
