"""Rebuilding while others read and write: nobody sees a table half written, and nobody is thrown out."""

from __future__ import annotations

import threading

import pytest
from sqlalchemy import func, select

from repairlog.records.rebuild import check, rebuild
from repairlog.records.store import Busy, close_the_gate, engine, open_store
from repairlog.records.tables.facts import SUBJECT
from repairlog.records.tables.journal import HEAD
from tests.makers import book as m
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.together import PATIENCE, together, wait_until_waiting


def test_who_took_a_picture_of_the_book_before_a_rebuild_sees_it_whole(store):
    m.opened(store)
    rebuilding = threading.Thread(target=lambda: rebuild(store))
    with store.reading() as tx:
        assert tx.connection.execute(select(HEAD.c.size)).scalar_one() == 8
        rebuilding.start()
        if store.dialect == "postgresql":
            wait_until_waiting(store, 1)
        else:
            rebuilding.join(PATIENCE)
        assert tx.connection.execute(select(func.count()).select_from(SUBJECT)).scalar_one() == 8
    rebuilding.join(PATIENCE)
    assert check(store).differences == ()


def test_posts_checks_and_rebuilds_at_once_all_come_to_their_end(store):
    book = m.opened(store)
    leaks = [m.leak(book) for _ in range(4)]
    book.say(*leaks)
    notes = [m.note(leak["id"]) for leak in leaks for _ in range(6)]

    def do(place):
        if place == 0:
            return [rebuild(store) > 0 for _ in range(6)]
        if place == 1:
            return [check(store).differences == () for _ in range(6)]
        return [book.say(note)[0].new for note in notes[place - 2 :: 4]]

    assert together(6, do) == [[True] * 6] * 6
    assert check(store).differences == ()


def test_a_reader_who_waits_too_long_is_told_that_the_book_is_busy(postgresql_url, monkeypatch):
    """A tenth of a second stands for the half minute that a reader waits otherwise."""
    monkeypatch.setitem(engine.POSTGRESQL_SETTINGS, "lock_timeout", "100")
    store = open_store(postgresql_url, rulebooks=RULEBOOKS)
    with store.writing() as tx:
        close_the_gate(tx)
        with pytest.raises(Busy), store.reading():
            pass
    store.close()


def test_of_two_rebuilds_at_once_each_is_done_or_told_that_the_book_is_busy(store):
    m.opened(store)

    def do(_place):
        try:
            return rebuild(store)
        except Busy:
            return 0

    rows = check(store).rows
    done = [written for _turn in range(4) for written in together(2, do)]
    assert set(done) <= {0, rows}
    assert rows in done
    assert check(store).differences == ()
