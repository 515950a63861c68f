"""Lots are chosen from those of the leak's own area, and found by the number that somebody typed."""

from typing import Any

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries import lots as queries
from repairlog.records.queries.lots import lots_numbered, lots_of
from repairlog.records.store import Store
from repairlog.trade.lot import Lot
from tests.makers import book as m


def lot(book: m.Book, number: str, **fields: Any) -> dict[str, Any]:
    said = {"area": book.area, "item": "filler", "lot_number": number, "happened": "2026-01-05"}
    return {"kind": "lot_received", "id": m.new_id()} | said | fields


def numbered(book: m.Book, *numbers: str, scope: Scope = EVERYTHING) -> list[str]:
    with book.store.reading() as tx:
        found = lots_numbered(scope, tx, area=read_id(book.area), numbers=numbers)
    return [f"{each.lot_number} {each.expires_on}".strip() for each in found]


def offered(book: m.Book, scope: Scope = EVERYTHING) -> list[str]:
    with book.store.reading() as tx:
        return [each.lot_number for each in lots_of(scope, tx, area=read_id(book.area))]


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def test_a_lot_comes_with_its_item_and_its_last_day(book: m.Book) -> None:
    with book.store.reading() as tx:
        found = lots_numbered(EVERYTHING, tx, area=read_id(book.area), numbers=["w-0118"])
    tape = {"item": "wrap tape, 2 in", "lot_number": "W-0118", "expires_on": "2026-09-30", "received_on": "2025-01-02"}
    assert found == [Lot(id=read_id(book.lot), area=book.area, void=False, **tape)]


def test_several_lots_may_bear_one_number_and_a_number_that_none_bears_finds_none(book: m.Book) -> None:
    twins = [lot(book, "P-9"), lot(book, "P-9", expires_on="2026-10-01")]
    book.say(*twins, lot(book, "P-90"), lot(book, "P-9", area=book.other_area))
    assert sorted(numbered(book, "P-9", "W-0118")) == ["P-9", "P-9 2026-10-01", "W-0118 2026-09-30"]
    assert numbered(book, "P-", "%", "") == [] == numbered(book)


def test_the_newest_are_offered_and_no_more_than_a_page_can_use(book: m.Book, monkeypatch: pytest.MonkeyPatch) -> None:
    book.say(lot(book, "P-3", happened="2026-02-01"), lot(book, "P-1"), lot(book, "P-2"))
    assert offered(book) == ["P-3", "P-2", "P-1", "W-0118"]
    monkeypatch.setattr(queries, "OFFERED", 2)
    assert offered(book) == ["P-3", "P-2"]


def test_a_lot_whose_receipt_is_void_is_neither_offered_nor_found(book: m.Book) -> None:
    book.say(m.void(book.lot))
    assert (offered(book), numbered(book, "W-0118")) == ([], [])


def test_lots_of_an_area_outside_the_scope_are_not_told(book: m.Book) -> None:
    elsewhere = Scope(areas=frozenset([read_id(book.other_area)]))
    assert (offered(book, elsewhere), numbered(book, "W-0118", scope=elsewhere)) == ([], [])
