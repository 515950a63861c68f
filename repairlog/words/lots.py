"""What is said back of a lot number that was typed: what it is, and until when it may be used."""

from __future__ import annotations

from repairlog.trade.lot import Lot
from repairlog.words import _
from repairlog.words.days import day


def on_the_books(lot: Lot, *, expired: bool) -> str:
    """What the lot is and its last day; plainly so where that was over on the day of work."""
    return f"{lot.item} · {_until(lot, expired=expired)}"


def choice(lot: Lot) -> str:
    """How a lot stands among several of the same number."""
    maker_s = f"{lot.lot_number} · {lot.item}"
    return f"{maker_s} · {_until(lot, expired=False)}"


def _until(lot: Lot, *, expired: bool) -> str:
    if not lot.expires_on:
        return _("no last day on the books")
    said = _("was to be used until {day}: kept as used, and raised") if expired else _("use by {day}")
    return said.format(day=day(lot.expires_on))


def not_on_the_books() -> str:
    """What is said of a number that no lot of the area bears."""
    return _("Not on the books here: kept as you read it, and raised.")


def several() -> str:
    """What is said of a number that several lots bear."""
    return _("Several lots bear this number.")
