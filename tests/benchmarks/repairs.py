"""What is posted while it is measured: repairs with three materials and their test, on leaks that have a story."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tests.makers import book as made
from tests.makers.book import Book, new_id

TOGETHER = 40
"""Leaks of one call while the book is filled."""


def lots(book: Book) -> list[str]:
    """Three lots on the books."""
    more = [new_id(), new_id()]
    for id, item in zip(more, ("primer", "mastic"), strict=True):
        lot = {"kind": "lot_received", "id": id, "area": book.area, "item": item, "lot_number": f"L-{item}"}
        book.say(lot | {"happened": "2025-06-02", "expires_on": "2027-06-30"})
    return [book.lot, *more]


def leaks(book: Book, *, how_many: int) -> list[str]:
    """Leaks with four entries each: report, source, first investigation, grade."""
    opened = [made.leak(book, house_number=str(place)) for place in range(how_many)]
    for first in range(0, how_many, TOGETHER):
        together = opened[first : first + TOGETHER]
        book.say(*(entry for leak in together for entry in _story(leak)))
    return [leak["id"] for leak in opened]


def _story(leak: dict[str, Any]) -> list[dict[str, Any]]:
    id = leak["id"]
    return [leak, made.source(id), made.visit(id), made.grade(id)]


def repair(leak: str, *, lots: Sequence[str]) -> list[dict[str, Any]]:
    """One Save of a crew: a repair with three materials by lot, and the soap test on it."""
    materials = [{"key": f"m{place}", "lot": lot, "used": "1"} for place, lot in enumerate(lots, start=1)]
    attempt = made.attempt(leak, materials=materials)
    return [attempt, made.test_of(leak, attempt["id"])]


def whole_story(book: Book, *, lots: Sequence[str]) -> list[dict[str, Any]]:
    """Eight entries of one leak from its report to its end, as an old list or a phone's queue brings them."""
    leak = made.leak(book)
    attempt, test = repair(leak["id"], lots=lots)
    review = made.review(leak["id"], attempt["id"])
    return [*_story(leak), attempt, test, review, made.ending(leak["id"], [attempt["id"]])]
