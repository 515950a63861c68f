"""Entries to say about shelves, and about lots in stores."""

from __future__ import annotations

from typing import Any

from tests.makers.book import Book, new_id


def shelf(book: Book, **fields: Any) -> dict[str, Any]:
    """A truck."""
    made = {"kind": "shelf_made", "id": new_id(), "area": book.area, "name": "Truck 4", "what": "truck"}
    return made | {"happened": "2026-03-02"} | fields


def temperature(shelf: str, **fields: Any) -> dict[str, Any]:
    """A mild morning."""
    read = {"kind": "temperature_logged", "id": new_id(), "subject": shelf, "happened": "2026-03-03 07:00"}
    return read | {"temperature": "64 F"} | fields


def received(book: Book, **fields: Any) -> dict[str, Any]:
    """Two dozen clamps."""
    lot = {"kind": "lot_received", "id": new_id(), "area": book.area, "item": "clamp, 3/4 in", "lot_number": "C-30"}
    return lot | {"received": "24 each", "shelf": "bay 2", "happened": "2026-03-02"} | fields


def moved(lot: str, **fields: Any) -> dict[str, Any]:
    """Brought to a place that is not on the books, the whole of it."""
    return _of(lot, "lot_moved", happened="2026-03-03", named="bay 3") | fields


def counted(lot: str, amount: str = "20", **fields: Any) -> dict[str, Any]:
    """Counted."""
    return _of(lot, "lot_counted", happened="2026-03-04", amount=amount) | fields


def used(lot: str, amount: str = "2", **fields: Any) -> dict[str, Any]:
    """Used to train on."""
    return _of(lot, "lot_used", happened="2026-03-04", amount=amount, used_for="training") | fields


def quarantined(lot: str, **fields: Any) -> dict[str, Any]:
    """Quarantined on a maker's notice."""
    return _of(lot, "lot_quarantined", happened="2026-03-03", reason="notice of the maker") | fields


def released(lot: str, **fields: Any) -> dict[str, Any]:
    """Released again."""
    return _of(lot, "lot_released", happened="2026-03-05", reason="looked over, sound") | fields


def scrapped(lot: str, **fields: Any) -> dict[str, Any]:
    """The whole of it scrapped."""
    return _of(lot, "lot_scrapped", happened="2026-03-04", reason="water got in") | fields


def in_stores(book: Book) -> dict[str, str]:
    """Say every kind of them, and give ids by name."""
    truck, clamps, tape = shelf(book), received(book), received(book, item="wrap tape", lot_number="W-9")
    lot = clamps["id"]
    book.say(
        *(truck, clamps, tape),
        temperature(truck["id"], lowest="41 F", highest="71 F", instrument="T-1", remarks="heater off"),
        moved(lot, shelf=truck["id"]),
        moved(lot, shelf=truck["id"], amount="6 each"),
        counted(lot, remarks="one box open"),
        *(used(lot), quarantined(lot), released(lot)),
        scrapped(lot, amount="2 each"),
        *(quarantined(tape["id"]), scrapped(tape["id"])),
    )
    return {"shelf": truck["id"], "clamps": lot, "tape": tape["id"]}


def _of(lot: str, kind: str, **fields: Any) -> dict[str, Any]:
    return {"kind": kind, "id": new_id(), "lot": lot} | fields
