"""The same call from many at one moment, and many calls on one leak or area: each is recorded once, in one order."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from repairlog.records.store import open_store
from repairlog.records.tables import facts, worked
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import rows
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.server_of_posts import ask, line_of, serving
from tests.makers.together import together

COPIES = 16


def a_repair(open_book):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    attempt = book.attempt(leak["id"], materials=[{"key": "m1", "lot": open_book.lot}])
    return [leak, attempt, book.test_of(leak["id"], attempt["id"])]


def check_recorded_once(open_book, call, *, before):
    """The call's entries stand once, at the next places, and the journal verifies."""
    ids = [str(row["id"]) for row in rows(open_book.store, JOURNAL)[before:]]
    assert ids == [entry["id"] for entry in call]
    assert verify(open_book.store).problems == ()
    assert [row["last"] for row in rows(open_book.store, worked.AREA_COUNTER)] == [1]


@pytest.mark.parametrize("what", ["a repair", "a grade", "a correction"])
def test_sixteen_copies_at_two_processes_get_the_same_receipt_and_stand_once(database_url, what):
    store = open_store(database_url, rulebooks=RULEBOOKS)
    open_book = book.opened(store)
    first = a_repair(open_book)
    call = {
        "a repair": first,
        "a grade": [book.grade(first[0]["id"])],
        "a correction": [book.corrected(first[1]["id"], ("outcome", "not_tight"))],
    }[what]
    if call is not first:
        open_book.say(*first)
    before = len(rows(store, JOURNAL))
    with serving(database_url, count=2) as processes:
        for process in processes:
            ask(process, threads=COPIES // 2, call=call, person=str(open_book.everyone.person))
        answers = [receipts for process in processes for receipts in line_of(process)]
    assert len(answers) == COPIES
    assert answers == [answers[0]] * COPIES
    assert [index for _id, index, _leaf, _number in answers[0]] == list(range(before, before + len(call)))
    check_recorded_once(open_book, call, before=before)
    store.close()


def test_sixteen_copies_from_sixteen_clients_get_the_same_receipt_and_stand_once(store):
    open_book = book.opened(store)
    call, before = a_repair(open_book), len(rows(store, JOURNAL))
    answers = together(COPIES, lambda _: open_book.say(*call))
    assert sorted(receipt.new for receipts in answers for receipt in receipts) == [False] * 45 + [True] * 3
    assert len({(r.id, r.index, r.leaf, r.number) for receipts in answers for r in receipts}) == 3
    check_recorded_once(open_book, call, before=before)


def test_eight_writers_on_one_leak_number_their_attempts_one_to_eight(store):
    open_book = book.opened(store)
    leak = book.leak(open_book)
    open_book.say(leak)
    attempts = [book.attempt(leak["id"], happened=f"2026-03-05 10:{minute:02}") for minute in range(32)]

    def write(place):
        return [receipt.index for each in attempts[place::8] for receipt in open_book.say(each)]

    indexes = sorted(index for written in together(8, write) for index in written)
    assert indexes == list(range(9, 41))
    numbers = {str(row["id"]): row["number"] for row in rows(store, worked.ATTEMPT)}
    assert numbers == {attempt["id"]: number for number, attempt in enumerate(attempts, start=1)}
    assert [row["attempts"] for row in rows(store, worked.LEAK)] == [32]
    assert verify(store).problems == ()


def test_eight_writers_who_open_leaks_in_one_area_give_every_number_once(store):
    open_book = book.opened(store)

    def write(place):
        return [receipt.number for _ in range(5) for receipt in open_book.say(book.leak(open_book))]

    numbers = sorted(number for written in together(8, write) for number in written)
    assert numbers == [f"ES-26-{number:04}" for number in range(1, 41)]
    assert verify(store).problems == ()


def test_eight_writers_who_bring_one_old_number_leave_it_to_one_and_are_counted_else(store):
    open_book = book.opened(store)

    def write(place):
        return [receipt.number for receipt in open_book.say(book.leak(open_book, number="ES-26-0003"))]

    numbers = sorted(number for written in together(8, write) for number in written)
    assert numbers == [f"ES-26-{number:04}" for number in (1, 2, 3, 4, 5, 6, 7, 8)]
    assert verify(store).problems == ()


def test_writers_of_leaks_and_of_the_lot_they_used_leave_no_leak_behind(store):
    """Half the writers repair with a lot, half put its expiry right: whoever comes last, every leak has its gap."""
    open_book = book.opened(store)
    leaks = [book.leak(open_book) for _ in range(4)]
    open_book.say(*leaks)

    def write(place):
        if place % 2:
            open_book.say(book.corrected(open_book.lot, ("expires_on", f"2026-02-0{place}")))
        else:
            material = {"key": "m1", "lot": open_book.lot}
            open_book.say(book.attempt(leaks[place // 2]["id"], materials=[material]))

    together(8, write)
    raised = rows(store, worked.GAP, code="expired_lot_used")
    assert sorted(str(row["subject_id"]) for row in raised) == sorted(leak["id"] for leak in leaks)
    with store.reading() as tx:
        expires_on = tx.connection.execute(select(worked.LOT.c.expires_on)).scalar_one().isoformat()
    assert {expires_on in row["facts"] for row in raised} == {True}


def test_the_index_of_entries_has_every_place_of_the_journal(store):
    open_book = book.opened(store)
    together(8, lambda _: open_book.say(*a_repair(open_book)))
    places = {(row["journal_index"], row["id"]) for row in rows(store, facts.ENTRY)}
    assert places == {(row["journal_index"], row["id"]) for row in rows(store, JOURNAL)}
    assert sorted(place for place, _id in places) == list(range(8 + 24))
