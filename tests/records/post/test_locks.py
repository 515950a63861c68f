"""Locks are taken in one order by every post: area, person, lot, leak, the area's counter, the head last."""

from __future__ import annotations

import threading
from uuid import UUID

import pytest
from sqlalchemy import select
from sqlalchemy.exc import OperationalError

from repairlog.records.store import Busy, engine, open_store
from repairlog.records.tables import facts, worked
from repairlog.records.tables.journal import HEAD
from tests.makers import book
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.together import PATIENCE, wait_until_waiting

ORDER = ("area", "person", "lot", "leak", "counter", "head")


def subject(id):
    return select(facts.SUBJECT.c.id).where(facts.SUBJECT.c.id == UUID(str(id)))


@pytest.fixture
def open_book(postgresql_store):
    return book.opened(postgresql_store)


def a_call(open_book):
    """A call that needs every lock, and the row of each."""
    leak = book.leak(open_book)
    open_book.say(leak)
    person = str(open_book.crew.person)
    used = {"materials": [{"key": "m1", "lot": open_book.lot}], "people": [{"key": "p1", "person": person}]}
    rows = {
        "area": subject(open_book.area),
        "person": subject(person),
        "lot": subject(open_book.lot),
        "leak": subject(leak["id"]),
        "counter": select(worked.AREA_COUNTER.c.last),
        "head": select(HEAD.c.size),
    }
    return [book.attempt(leak["id"], **used), book.leak(open_book)], rows


def is_locked(store, row):
    with store.engine.connect() as connection:
        try:
            connection.execute(row.with_for_update(nowait=True)).all()
        except OperationalError:
            return True
        return False


@pytest.mark.parametrize("held", ORDER)
def test_a_post_that_waits_for_one_lock_holds_those_before_it_and_none_after(open_book, postgresql_store, held):
    store = postgresql_store
    call, rows = a_call(open_book)
    poster = threading.Thread(target=lambda: open_book.say(*call))
    with store.writing() as tx:
        tx.connection.execute(rows[held].with_for_update())
        poster.start()
        wait_until_waiting(store, 1)
        locked = [name for name in ORDER if name != held and is_locked(store, rows[name])]
    poster.join(PATIENCE)
    assert locked == list(ORDER[: ORDER.index(held)])


def test_a_lot_whose_story_goes_on_is_locked_before_the_leaks_that_used_it(open_book, postgresql_store):
    store = postgresql_store
    call, rows = a_call(open_book)
    open_book.say(*call)
    poster = threading.Thread(target=lambda: open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-01"))))
    with store.writing() as tx:
        tx.connection.execute(rows["leak"].with_for_update())
        poster.start()
        wait_until_waiting(store, 1)
        locked = [name for name in ("lot", "head") if is_locked(store, rows[name])]
    poster.join(PATIENCE)
    assert locked == ["lot"]


def test_two_repairs_with_one_lot_on_two_leaks_do_not_wait_for_each_other_before_the_head(open_book, postgresql_store):
    """What is only named is locked for sharing."""
    store = postgresql_store
    leaks = [book.leak(open_book) for _ in range(2)]
    open_book.say(*leaks)
    repairs = [book.attempt(leak["id"], materials=[{"key": "m1", "lot": open_book.lot}]) for leak in leaks]
    posters = [threading.Thread(target=lambda each=each: open_book.say(each)) for each in repairs]
    with store.writing() as tx:
        tx.connection.execute(select(HEAD.c.size).with_for_update())
        for count, poster in enumerate(posters, start=1):
            poster.start()
            wait_until_waiting(store, count)
        both = [is_locked(store, subject(leak["id"])) for leak in leaks]
    for poster in posters:
        poster.join(PATIENCE)
    assert both == [True, True]


def test_a_post_that_waits_too_long_says_that_the_book_is_busy_and_writes_nothing(postgresql_url, monkeypatch):
    """A tenth of a second stands for the half minute that a writer waits otherwise."""
    monkeypatch.setitem(engine.POSTGRESQL_SETTINGS, "lock_timeout", "100")
    store = open_store(postgresql_url, rulebooks=RULEBOOKS)
    open_book = book.opened(store)
    leak = book.leak(open_book)
    with store.writing() as tx:
        tx.connection.execute(select(HEAD.c.size).with_for_update())
        with pytest.raises(Busy) as busy:
            open_book.say(leak)
    assert busy.value.code == "busy"
    assert [receipt.index for receipt in open_book.say(leak)] == [8]
    store.close()


def a_lot(open_book):
    said = {"kind": "lot_received", "id": book.new_id(), "area": open_book.area, "item": "tape", "lot_number": "W-9"}
    open_book.say(said | {"happened": "2026-01-05"})
    return said["id"]


def putting_right(open_book, lot):
    return lambda: open_book.say(book.corrected(lot, ("shelf", "7")))


def locked_while(store, held, asked, *, post):
    """Whether `asked` is locked while a post waits for `held`."""
    poster = threading.Thread(target=post)
    with store.writing() as tx:
        tx.connection.execute(subject(held).with_for_update())
        poster.start()
        wait_until_waiting(store, 1)
        locked = is_locked(store, subject(asked))
    poster.join(PATIENCE)
    return locked


@pytest.mark.parametrize("used_is_first", [True, False])
def test_of_two_lots_the_first_id_is_locked_first_whichever_is_only_used(open_book, postgresql_store, used_is_first):
    """Otherwise a call that uses one and notes on the other waits for a call the other way round, and it for this."""
    first, second = open_book.lot, a_lot(open_book)
    used, noted_on = (first, second) if used_is_first else (second, first)
    leak = book.leak(open_book)
    open_book.say(leak)
    call = [book.attempt(leak["id"], materials=[{"key": "m1", "lot": used}]), book.note(noted_on)]
    assert locked_while(postgresql_store, second, first, post=lambda: open_book.say(*call)) is True
    call = [book.attempt(leak["id"], materials=[{"key": "m1", "lot": used}]), book.note(noted_on)]
    assert locked_while(postgresql_store, first, second, post=lambda: open_book.say(*call)) is False


def test_lots_that_the_leaks_of_a_lot_used_too_are_locked_in_their_order(open_book, postgresql_store):
    first, second = open_book.lot, a_lot(open_book)
    leak = book.leak(open_book)
    used = [{"key": "m1", "lot": first}, {"key": "m2", "lot": second}]
    open_book.say(leak, book.attempt(leak["id"], materials=used))
    assert locked_while(postgresql_store, first, second, post=putting_right(open_book, second)) is False
