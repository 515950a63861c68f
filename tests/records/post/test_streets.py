"""A street is there exactly while an entry names it."""

import threading

import pytest

from repairlog.records.tables import facts
from tests.makers import book
from tests.makers.copies import rows
from tests.makers.together import PATIENCE, together, wait_until_waiting


def streets(store):
    return [(r["name"], r["town"], r["search_key"]) for r in rows(store, facts.STREET)]


QUARRY = ("QUARRY LANE", "HARROWSEDGE", "quarry lane harrowsedge")
MILL = ("MILL LANE", "HARROWSEDGE", "mill lane harrowsedge")


def test_the_same_words_in_any_case_are_one_street(open_book):
    open_book.say(*[book.leak(open_book, street=name) for name in ("Quarry Lane", "QUARRY  LANE", "quarry lane")])
    assert streets(open_book.store) == [QUARRY]
    assert len({r["street_id"] for r in rows(open_book.store, facts.OF_KIND["leak_opened"])}) == 1


def test_a_corrected_street_takes_the_old_one_away_where_no_other_leak_names_it(open_book):
    leak = book.leak(open_book)
    open_book.say(leak)
    open_book.say(book.corrected(leak["id"], ("street", "Mill Lane")))
    assert streets(open_book.store) == [MILL]


def test_a_corrected_street_leaves_the_old_one_where_another_leak_names_it(open_book):
    leak = book.leak(open_book)
    open_book.say(leak, book.leak(open_book))
    open_book.say(book.corrected(leak["id"], ("street", "Mill Lane")))
    assert sorted(streets(open_book.store)) == [MILL, QUARRY]


def test_the_last_of_two_leaks_to_leave_a_street_takes_it_away(open_book):
    leaks = [book.leak(open_book) for _ in range(2)]
    open_book.say(*leaks)
    for leak in leaks:
        open_book.say(book.corrected(leak["id"], ("street", "Mill Lane")))
    assert streets(open_book.store) == [MILL]


def test_a_void_leak_still_names_its_street(open_book):
    leak = book.leak(open_book)
    open_book.say(leak)
    open_book.say(book.void(leak["id"]))
    assert streets(open_book.store) == [QUARRY]


def test_a_street_taken_away_by_a_correction_goes_and_a_void_of_the_correction_brings_it_back(open_book):
    leak = book.leak(open_book)
    right = book.corrected(leak["id"], ("street", None))
    open_book.say(leak, right)
    assert streets(open_book.store) == []
    open_book.say(book.void(right["id"]))
    assert streets(open_book.store) == [QUARRY]


@pytest.mark.parametrize("turn", range(2))
def test_a_street_stays_that_a_new_leak_names_while_the_old_one_leaves_it(postgresql_store, turn):
    """The new leak has written its street and waits for the head; the old leak's correction comes to take it away."""
    open_book = book.opened(postgresql_store)
    leak = book.leak(open_book)
    open_book.say(leak)
    held = threading.Event()

    def post(place):
        if place == 0:
            with postgresql_store.writing() as tx:
                tx.connection.exec_driver_sql("SELECT size FROM head FOR UPDATE")
                held.set()
                wait_until_waiting(postgresql_store, 2)
        elif place == 1:
            assert held.wait(PATIENCE)
            open_book.say(book.leak(open_book))
        else:
            wait_until_waiting(postgresql_store, 1)
            open_book.say(book.corrected(leak["id"], ("street", "Mill Lane")))

    together(3, post)
    assert sorted(streets(postgresql_store)) == [MILL, QUARRY]
