"""What happens to a lot in stores is raised on the leaks that used it in that commit, and goes when it is put right."""

from __future__ import annotations

import pytest

from repairlog.access import Actor, Membership, Refused
from repairlog.entries.ids import read_id
from repairlog.records.tables import worked
from tests.makers import book as m
from tests.makers import stores as s
from tests.makers.copies import rows

IN_STORES = ("quarantined_lot_used", "scrapped_lot_used", "void_lot_used")


def raised(book):
    return sorted(row["code"] for code in IN_STORES for row in rows(book.store, worked.GAP, code=code))


def test_a_quarantined_and_a_scrapped_lot_are_raised_where_they_were_used_on_such_a_day(open_book):
    book = open_book
    lot, leak = s.received(book), m.leak(book)
    book.say(lot, leak, m.attempt(leak["id"], materials=[{"key": "m1", "lot": lot["id"]}]))
    assert raised(book) == []
    quarantined = s.quarantined(lot["id"])
    book.say(quarantined)
    assert raised(book) == ["quarantined_lot_used"]
    (row,) = rows(book.store, worked.LOT, id=read_id(lot["id"]))
    assert (row["status"], row["quarantined"], row["lies_at"]) == ("quarantined", '[["2026-03-03",""]]', "bay 2")
    book.say(s.released(lot["id"]))  # on the day of the repair: nobody can say what came first
    assert raised(book) == []
    scrapped = s.scrapped(lot["id"])
    book.say(scrapped)
    assert raised(book) == ["scrapped_lot_used"]
    book.say(m.void(scrapped["id"]), m.void(quarantined["id"]))
    assert raised(book) == []


@pytest.mark.parametrize(
    "kind", ["received", "shelf", "moved", "counted", "used", "quarantined", "released", "scrapped"]
)
def test_a_storekeeper_keeps_the_stores_of_their_area_and_nothing_else(open_book, kind):
    book = open_book
    held = Membership(role="storekeeper", area=read_id(book.area), from_on="2025-01-02")
    keeper = Actor(person=book.crew.person, sure="password", memberships=(held,), signed_in_on="2025-01-02")
    of_the_book = kind in ("received", "shelf")
    book.say(getattr(s, kind)(book if of_the_book else book.lot), by=keeper)
    with pytest.raises(Refused):
        book.say(m.leak(book), by=keeper)
    with pytest.raises(Refused):
        book.say(s.shelf(book, area=book.other_area), by=keeper)
