"""What leaks rest on beside lots: people, instruments and the area, folded again in the same commit or marked stale."""

from __future__ import annotations

import threading
from datetime import timedelta
from uuid import UUID

import pytest
from sqlalchemy import select

from repairlog.entries.entry import Moments
from repairlog.records.post import ground
from repairlog.records.post.stale import fold_stale
from repairlog.records.rebuild import check
from repairlog.records.tables import beside, books, facts, worked
from tests.makers import book
from tests.makers.copies import rows
from tests.makers.together import PATIENCE, wait_until_waiting

FEW = 2
LATER = Moments(received=book.RECEIVED + timedelta(days=1))
LATER_STILL = Moments(received=book.RECEIVED + timedelta(days=5))


@pytest.fixture
def few_at_once(monkeypatch):
    """Two leaks stand for two hundred."""
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", FEW)


def leaks_with(open_book, *, leaks, make, **fields):
    opened = [book.leak(open_book) for _ in range(leaks)]
    open_book.say(*opened, *[make(each["id"], **fields) for each in opened])
    return [each["id"] for each in opened]


def raised(open_book, code):
    return sorted(str(row["subject_id"]) for row in rows(open_book.store, worked.GAP, code=code))


def stale(open_book):
    return {str(row["subject_id"]) for row in rows(open_book.store, beside.STALE)}


def by_crew(open_book):
    return [{"key": "p1", "person": str(open_book.crew.person), "task": "install clamp"}]


@pytest.mark.parametrize("leaks", [FEW, FEW + 1])
def test_a_qualification_settles_the_gap_on_every_leak_or_marks_them_stale(open_book, few_at_once, leaks):
    ids = leaks_with(open_book, leaks=leaks, make=book.attempt, people=by_crew(open_book))
    assert raised(open_book, "qualification_not_on_the_books") == sorted(ids)
    open_book.say(book.qualified(str(open_book.crew.person)))
    many = leaks > FEW
    assert stale(open_book) == (set(ids) if many else set())
    assert len(raised(open_book, "qualification_not_on_the_books")) == (leaks if many else 0)
    fold_stale(open_book.store)
    assert (stale(open_book), raised(open_book, "qualification_not_on_the_books")) == (set(), [])
    assert check(open_book.store).differences == ()


@pytest.mark.parametrize(("happened", "left"), [("2026-03-04", 0), ("2026-03-05", 0), ("2026-03-06", 3)])
def test_an_evaluation_touches_no_leak_that_was_worked_on_before_its_day(open_book, few_at_once, happened, left):
    """Three leaks would be marked stale, were they touched."""
    leaks_with(open_book, leaks=FEW + 1, make=book.attempt, people=by_crew(open_book))
    open_book.say(book.qualified(str(open_book.crew.person), happened=happened), moments=LATER)
    assert len(stale(open_book)) == (0 if left else FEW + 1)
    fold_stale(open_book.store)
    assert len(raised(open_book, "qualification_not_on_the_books")) == left
    assert check(open_book.store).differences == ()


def test_a_role_given_and_a_note_touch_no_leak(open_book, few_at_once):
    leaks_with(open_book, leaks=FEW + 1, make=book.attempt, people=by_crew(open_book))
    crew = str(open_book.crew.person)
    open_book.say(book.role_given(crew, "manager"), book.note(crew), book.note(open_book.area))
    assert (stale(open_book), check(open_book.store).differences) == (set(), ())


def test_a_calibration_settles_the_gap_and_its_void_raises_it_again(open_book):
    meter = book.instrument(open_book)
    open_book.say(meter)
    (leak,) = leaks_with(open_book, leaks=1, make=book.visit, instrument="G-3", instrument_used=meter["id"])
    assert raised(open_book, "calibration_not_on_the_books") == [leak]
    calibrated = book.calibrated(meter["id"])
    open_book.say(calibrated)
    assert raised(open_book, "calibration_not_on_the_books") == []
    open_book.say(book.void(calibrated["id"]))
    assert raised(open_book, "calibration_not_on_the_books") == [leak]
    assert check(open_book.store).differences == ()


@pytest.mark.parametrize("leaks", [FEW, FEW + 1])
def test_the_cut_over_day_of_an_area_folds_its_leaks_again_or_marks_them_stale(open_book, few_at_once, leaks):
    ids = leaks_with(open_book, leaks=leaks, make=book.visit, instrument="G-9")
    elsewhere = book.leak(open_book, area=open_book.other_area)
    open_book.say(elsewhere, book.visit(elsewhere["id"], instrument="G-9"))
    open_book.say(book.cut_over(open_book.area))
    assert stale(open_book) == (set(ids) if leaks > FEW else set())
    fold_stale(open_book.store)
    assert raised(open_book, "instrument_not_on_the_books") == [elsewhere["id"]]
    assert check(open_book.store).differences == ()


def test_a_leak_moved_to_another_area_rests_on_that_area(open_book):
    open_book.say(book.cut_over(open_book.area))
    (leak,) = leaks_with(open_book, leaks=1, make=book.visit, instrument="G-9")
    assert raised(open_book, "instrument_not_on_the_books") == []
    open_book.say(book.corrected(leak, ("area", open_book.other_area)))
    assert raised(open_book, "instrument_not_on_the_books") == [leak]
    open_book.say(book.cut_over(open_book.other_area))
    assert raised(open_book, "instrument_not_on_the_books") == []
    assert check(open_book.store).differences == ()


def test_all_that_leaks_rest_on_is_locked_for_sharing_before_them_when_one_of_it_changes(postgresql_store):
    """A lot's story goes on: the area, the person and the instrument of the leak that used it come before the leak,
    each in its place, and whoever only reads them need not wait."""
    open_book = book.opened(postgresql_store)
    meter = book.instrument(open_book)
    open_book.say(meter)
    opened = book.leak(open_book)
    attempt = book.attempt(opened["id"], people=by_crew(open_book), materials=[{"key": "m1", "lot": open_book.lot}])
    open_book.say(opened, attempt, book.visit(opened["id"], instrument_used=meter["id"]))
    poster = threading.Thread(target=lambda: open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-01"))))
    with postgresql_store.writing() as tx:
        tx.connection.execute(row_of(opened["id"]).with_for_update())
        poster.start()
        wait_until_waiting(postgresql_store, 1)
        held = [open_book.area, str(open_book.crew.person), meter["id"], open_book.lot]
        shared = [can(postgresql_store, id, read=True) for id in held]
        written = [can(postgresql_store, id, read=False) for id in held]
    poster.join(PATIENCE)
    assert (shared, written) == ([True, True, True, False], [False] * 4)


def row_of(id):
    return select(facts.SUBJECT.c.id).where(facts.SUBJECT.c.id == UUID(id))


def can(store, id, *, read):
    """Whether somebody else can lock that subject now."""
    locked = row_of(id).with_for_update(read=read, skip_locked=True)
    with store.engine.connect() as connection:
        return connection.execute(locked).all() != []


def test_two_that_leaks_rest_on_change_in_one_call_and_both_are_written(open_book):
    """The area comes first and its leaks rest on the instrument, too: the instrument is written all the same."""
    meter = book.instrument(open_book)
    open_book.say(meter)
    leaks_with(open_book, leaks=1, make=book.visit, instrument_used=meter["id"])
    open_book.say(book.cut_over(open_book.area, cut_over_on="2026-01-01"), book.calibrated(meter["id"]))
    assert [str(row["calibrated_on"]) for row in rows(open_book.store, books.INSTRUMENT)] == ["2026-01-07"]
    assert (raised(open_book, "calibration_not_on_the_books"), check(open_book.store).differences) == ([], ())


def left(open_book, *, until_on):
    said = {"kind": "person_left", "id": book.new_id(), "subject": str(open_book.crew.person), "until_on": until_on}
    return said | {"happened": "2026-03-09", "reason": "went to another operator"}


@pytest.mark.parametrize("leaks", [FEW, FEW + 1])
def test_who_left_raises_what_they_did_after_it_or_marks_those_leaks_stale(open_book, few_at_once, leaks):
    """By their last day, not by the day on which somebody said so; what was done before it is not touched."""
    did = [{"key": "d1", "person": str(open_book.crew.person)}]
    leaks_with(open_book, leaks=FEW + 1, make=book.visit, happened="2026-03-03 08:00", did=did)
    ids = leaks_with(open_book, leaks=leaks, make=book.visit, happened="2026-03-05 08:00", did=did)
    said = left(open_book, until_on="2026-03-04")
    open_book.say(said, moments=LATER_STILL)
    assert stale(open_book) == (set(ids) if leaks > FEW else set())
    fold_stale(open_book.store)
    assert raised(open_book, "done_after_leaving") == sorted(ids)
    open_book.say(book.corrected(said["id"], ("until_on", "2026-03-05")), moments=LATER_STILL)
    fold_stale(open_book.store)
    assert (raised(open_book, "done_after_leaving"), check(open_book.store).differences) == ([], ())


def test_a_lot_that_is_said_to_have_come_later_raises_where_it_was_used_before(open_book):
    rows_of_lot = [{"key": "m1", "lot": open_book.lot}]
    ids = leaks_with(open_book, leaks=FEW, make=book.attempt, materials=rows_of_lot)
    came_later = book.corrected(open_book.lot, ("happened", "2026-03-06"))
    open_book.say(came_later, moments=LATER_STILL)
    assert raised(open_book, "lot_used_before_it_came") == sorted(ids)
    open_book.say(book.void(came_later["id"]), moments=LATER_STILL)
    assert (raised(open_book, "lot_used_before_it_came"), check(open_book.store).differences) == ([], ())
