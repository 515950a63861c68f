"""What the poster holds: where an entry stands, under which leaf and number, and what is raised about it now."""

from datetime import timedelta
from hashlib import sha256

from sqlalchemy import select

from repairlog.entries.entry import Moments
from repairlog.records.post import Receipt
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import copy_of

LATER = Moments(received=book.RECEIVED + timedelta(days=1))


def lines(store):
    with store.reading() as tx:
        return {row.id: row for row in tx.connection.execute(select(JOURNAL))}


def repaired(open_book, **materials):
    leak = book.leak(open_book)
    attempt = book.attempt(leak["id"], **materials)
    return [leak, attempt, book.test_of(leak["id"], attempt["id"]), book.ending(leak["id"], [attempt["id"]])]


def test_a_receipt_says_where_the_line_stands_and_its_leaf_as_rfc_9162_defines_it(open_book):
    receipts = open_book.say(*repaired(open_book))
    stands = lines(open_book.store)
    assert [(r.index, r.leaf) for r in receipts] == [
        (stands[r.id].journal_index, sha256(b"\x00" + stands[r.id].line).hexdigest()) for r in receipts
    ]
    assert [r.index for r in receipts] == [8, 9, 10, 11]


def test_every_receipt_of_a_leak_bears_its_number_and_others_bear_none(open_book):
    lot = {"kind": "lot_received", "id": book.new_id(), "area": open_book.area, "item": "clamp", "lot_number": "K-7"}
    receipts = open_book.say(*repaired(open_book), lot | {"happened": "2026-03-01"})
    assert [r.number for r in receipts] == ["ES-26-0001"] * 4 + [""]


def test_raised_is_read_afresh_and_all_else_on_a_receipt_stays(open_book):
    call = repaired(open_book, materials=[{"key": "m1", "lot": open_book.lot}])
    first = open_book.say(*call)
    assert [r.raised for r in first] == [(), ("repair_not_accepted",), (), ()]
    open_book.say(
        book.review(call[0]["id"], call[1]["id"]), book.corrected(open_book.lot, ("expires_on", "2026-03-04"))
    )
    again = open_book.say(*call)
    assert [r.raised for r in again] == [(), ("expired_lot_used",), (), ()]
    assert [(r.id, r.index, r.leaf, r.number) for r in again] == [(r.id, r.index, r.leaf, r.number) for r in first]


def test_the_same_call_at_another_hour_by_another_credential_gives_the_same_receipts_and_writes_nothing(open_book):
    call = [
        entry | {"typed": str(open_book.crew.person), "did": [{"key": "d1", "person": str(open_book.crew.person)}]}
        for entry in repaired(open_book)
    ]
    first = open_book.say(*call)
    before = copy_of(open_book.store)
    again = open_book.say(*call, by=open_book.supervisor, moments=LATER)
    assert [r.new for r in first] == [True] * 4
    assert again == [
        Receipt(id=r.id, index=r.index, leaf=r.leaf, number=r.number, raised=r.raised, new=False) for r in first
    ]
    assert copy_of(open_book.store) == before


def test_the_journal_verifies_after_every_call(open_book):
    for place in range(1, 10):
        leak = book.leak(open_book)
        open_book.say(*[leak] + [book.grade(leak["id"]) for _ in range(place - 1)])
        checked = verify(open_book.store)
        assert (checked.problems, checked.size) == ((), 8 + place * (place + 1) // 2)
