"""Corrections and voids fold every subject whose story they change, in the commit that records them."""

import threading
from uuid import UUID

import pytest
from sqlalchemy import select

from repairlog.records.tables import facts, worked
from tests.makers import book
from tests.makers.copies import copy_of, rows
from tests.makers.together import PATIENCE, together, wait_until_waiting


def two_leaks(open_book):
    """Two leaks, two attempts on the first; the second attempt is to move."""
    one, two = book.leak(open_book), book.leak(open_book)
    first, moving = book.attempt(one["id"]), book.attempt(one["id"], happened="2026-03-05 11:00")
    open_book.say(one, two, first, moving)
    return one["id"], two["id"], first["id"], moving["id"]


def attempts(open_book):
    return {(str(r["leak_id"]), str(r["id"]), r["number"]) for r in rows(open_book.store, worked.ATTEMPT)}


def counted(open_book):
    return {str(r["id"]): r["attempts"] for r in rows(open_book.store, worked.LEAK)}


def story_of(open_book, entry):
    return [str(r["subject_id"]) for r in rows(open_book.store, facts.ENTRY, id=UUID(entry))]


def test_an_entry_moved_to_another_leak_folds_both(open_book):
    one, two, first, moving = two_leaks(open_book)
    assert attempts(open_book) == {(one, first, 1), (one, moving, 2)}
    move = book.corrected(moving, ("leak", two))
    open_book.say(move)
    assert attempts(open_book) == {(one, first, 1), (two, moving, 1)}
    assert counted(open_book) == {one: 1, two: 1}
    assert (story_of(open_book, moving), story_of(open_book, move["id"])) == ([two], [two])


def test_a_void_of_the_move_brings_the_entry_back_and_folds_both_again(open_book):
    one, two, _first, moving = two_leaks(open_book)
    without = attempts(open_book), counted(open_book)
    move = book.corrected(moving, ("leak", two))
    open_book.say(move)
    open_book.say(book.void(move["id"]))
    assert (attempts(open_book), counted(open_book)) == without
    assert (story_of(open_book, moving), story_of(open_book, move["id"])) == ([one], [one])


def test_what_speaks_about_a_moved_entry_later_goes_into_the_story_it_stands_in_then(open_book):
    one, two, first, moving = two_leaks(open_book)
    open_book.say(book.corrected(moving, ("leak", two)))
    void = book.void(moving)
    open_book.say(void)
    assert (attempts(open_book), counted(open_book)) == ({(one, first, 1)}, {one: 1, two: 0})
    assert story_of(open_book, void["id"]) == [two]


def test_two_moves_in_one_call_leave_the_entry_where_the_later_says(open_book):
    one, two, first, moving = two_leaks(open_book)
    three = book.leak(open_book)
    open_book.say(three, book.corrected(moving, ("leak", two)), book.corrected(moving, ("leak", three["id"])))
    assert attempts(open_book) == {(one, first, 1), (three["id"], moving, 1)}
    assert counted(open_book) == {one: 1, two: 0, three["id"]: 1}


def test_a_void_takes_what_was_settled_back_and_its_void_settles_it_again(open_book):
    leak = book.leak(open_book)
    attempt = book.attempt(leak["id"])
    test, end = book.test_of(leak["id"], attempt["id"]), book.ending(leak["id"], [attempt["id"]])
    open_book.say(leak, attempt, test, book.review(leak["id"], attempt["id"]), end)
    ended = copy_of(open_book.store, worked.LEAK, worked.ATTEMPT, worked.GAP)
    void = book.void(attempt["id"])
    open_book.say(void)
    assert [(r["status"], r["ended_on"]) for r in rows(open_book.store, worked.LEAK)] == [("open", None)]
    assert {r["code"] for r in rows(open_book.store, worked.GAP)} == {
        "ending_does_not_hold",
        "attempt_not_of_this_leak",
    }
    open_book.say(book.void(void["id"]))
    assert copy_of(open_book.store, worked.LEAK, worked.ATTEMPT, worked.GAP) == ended


def test_a_correction_of_a_correction_and_marks_of_both(open_book):
    leak = book.leak(open_book)
    right = book.corrected(leak["id"], ("house_number", "41"))
    open_book.say(leak, right, book.corrected(right["id"], ("changes.c1.to", "44")))
    assert [r["house_number"] for r in rows(open_book.store, worked.LEAK)] == ["44"]
    marks = {str(r["id"]): (r["corrected"], r["void"]) for r in rows(open_book.store, facts.ENTRY)}
    assert (marks[leak["id"]], marks[right["id"]]) == ((True, False), (True, False))


def test_who_did_it_can_be_put_right(open_book):
    leak = book.leak(open_book, did=[{"key": "d1", "named": "M. Aldus"}])
    open_book.say(leak)
    assert [r["code"] for r in rows(open_book.store, worked.GAP)] == ["person_not_on_the_books"]
    crew = str(open_book.crew.person)
    open_book.say(book.corrected(leak["id"], ("did.d1.named", None), ("did.d1.person", crew)))
    stands = [(r["person_id"], r["named"]) for r in rows(open_book.store, facts.WHO_DID, entry_id=UUID(leak["id"]))]
    assert stands == [(open_book.crew.person, None)]
    assert rows(open_book.store, worked.GAP) == []


@pytest.mark.parametrize("turn", range(2))
def test_a_correction_that_waited_while_its_entry_moved_goes_where_the_entry_went(postgresql_store, turn):
    """The mover commits while the other waits for the leak's lock: what it read before it waited no longer holds."""
    open_book = book.opened(postgresql_store)
    one, two, _first, moving = two_leaks(open_book)
    move, right = book.corrected(moving, ("leak", two)), book.corrected(moving, ("outcome", "not_tight"))
    held = threading.Event()

    def post(place):
        if place == 0:
            with postgresql_store.writing() as tx:
                tx.connection.execute(select(facts.SUBJECT).where(facts.SUBJECT.c.id == UUID(one)).with_for_update())
                held.set()
                wait_until_waiting(postgresql_store, 2)
        elif place == 1:
            assert held.wait(PATIENCE)
            open_book.say(move)
        else:
            wait_until_waiting(postgresql_store, 1)
            open_book.say(right)

    together(3, post)
    assert story_of(open_book, right["id"]) == [two]
    assert {(str(r["leak_id"]), r["outcome"]) for r in rows(open_book.store, worked.ATTEMPT)} == {
        (one, "tight"),
        (two, "not_tight"),
    }
