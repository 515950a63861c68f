"""What rests on a lot is worked out again when the lot changes: at once where few leaks used it, else marked stale."""

from datetime import date, timedelta
from uuid import UUID

import pytest

from repairlog.entries.entry import Moments
from repairlog.records.post import ground
from repairlog.records.post.stale import fold_stale
from repairlog.records.tables import beside, facts, worked
from tests.makers import book
from tests.makers.copies import changed, copy_of, rows

FEW = 3
LATER = Moments(received=book.RECEIVED + timedelta(days=1))


@pytest.fixture
def few_at_once(monkeypatch):
    """Three leaks stand for two hundred: the rule is the same, and a test need not post them all."""
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", FEW)


def repaired_with(open_book, lot, *, leaks):
    made = [book.leak(open_book) for _ in range(leaks)]
    attempts = [book.attempt(leak["id"], materials=[{"key": "m1", "lot": lot}]) for leak in made]
    open_book.say(*made, *attempts)
    return [leak["id"] for leak in made], [attempt["id"] for attempt in attempts]


def expired(open_book):
    return {(str(r["subject_id"]), str(r["entry_id"]), r["row_key"]) for r in gaps(open_book, "expired_lot_used")}


def gaps(open_book, code):
    return rows(open_book.store, worked.GAP, code=code)


def test_two_hundred_leaks_are_worked_out_at_once_and_no_more():
    assert ground.REFOLDED_AT_ONCE == 200  # the size that was decided for one commit


@pytest.mark.parametrize(("expires_on", "raised"), [("2026-03-04", True), ("2026-03-05", False), ("2026-03-06", False)])
def test_an_expiry_put_right_is_raised_on_every_leak_that_used_the_lot_in_that_commit(open_book, expires_on, raised):
    leaks, attempts = repaired_with(open_book, open_book.lot, leaks=4)
    assert expired(open_book) == set()
    open_book.say(book.corrected(open_book.lot, ("expires_on", expires_on)))
    wanted = {(leak, attempt, "materials.m1") for leak, attempt in zip(leaks, attempts, strict=True)}
    assert expired(open_book) == (wanted if raised else set())
    assert rows(open_book.store, beside.STALE) == []
    assert [r["expires_on"] for r in rows(open_book.store, worked.LOT)] == [date.fromisoformat(expires_on)]


def test_the_gap_goes_again_when_the_correction_is_void(open_book):
    repaired_with(open_book, open_book.lot, leaks=2)
    right = book.corrected(open_book.lot, ("expires_on", "2026-03-04"))
    open_book.say(right)
    open_book.say(book.void(right["id"]))
    assert expired(open_book) == set()


def test_a_void_attempt_is_not_raised_and_its_void_made_void_is(open_book):
    (leak,), (attempt,) = repaired_with(open_book, open_book.lot, leaks=1)
    void = book.void(attempt)
    open_book.say(void, book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    assert expired(open_book) == set()
    open_book.say(book.void(void["id"]))
    assert expired(open_book) == {(leak, attempt, "materials.m1")}


def test_a_correction_of_the_materials_ties_the_leak_to_the_other_lot(open_book):
    other = book.new_id()
    open_book.say(
        {
            "kind": "lot_received",
            "id": other,
            "area": open_book.area,
            "item": "tape",
            "lot_number": "W-1",
            "expires_on": "2026-01-31",
            "happened": "2025-06-01",
        }
    )
    (leak,), (attempt,) = repaired_with(open_book, open_book.lot, leaks=1)
    open_book.say(book.corrected(attempt, ("materials.m1.lot", other)))
    assert expired(open_book) == {(leak, attempt, "materials.m1")}
    open_book.say(book.corrected(other, ("expires_on", "2026-12-31")))
    assert expired(open_book) == set()
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    assert expired(open_book) == set()


@pytest.mark.parametrize("leaks", [FEW - 1, FEW])
def test_up_to_the_limit_nothing_is_stale(open_book, few_at_once, leaks):
    repaired_with(open_book, open_book.lot, leaks=leaks)
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    assert (len(expired(open_book)), rows(open_book.store, beside.STALE)) == (leaks, [])


def test_past_the_limit_every_leak_is_marked_stale_and_no_worked_row_of_theirs_changes(open_book, few_at_once):
    leaks, _ = repaired_with(open_book, open_book.lot, leaks=FEW + 1)
    before = copy_of(open_book.store, worked.LEAK, worked.ATTEMPT, worked.SOURCE, worked.BAR_HOLE, worked.GAP)
    right = book.corrected(open_book.lot, ("expires_on", "2026-03-04"))
    open_book.say(right, moments=LATER)
    assert changed(before, copy_of(open_book.store, *WORKED_OF_A_LEAK)) == set()
    assert {(str(r["subject_id"]), r["stale_since"], str(r["because_id"])) for r in stale(open_book)} == {
        (leak, LATER.received, right["id"]) for leak in leaks
    }
    assert [r["expires_on"] for r in rows(open_book.store, worked.LOT)] == [date(2026, 3, 4)]


WORKED_OF_A_LEAK = (worked.LEAK, worked.ATTEMPT, worked.SOURCE, worked.BAR_HOLE, worked.GAP)


def stale(open_book):
    return rows(open_book.store, beside.STALE)


def test_a_post_on_a_stale_leak_works_it_out_anew_and_it_alone_is_no_longer_stale(open_book, few_at_once):
    leaks, attempts = repaired_with(open_book, open_book.lot, leaks=FEW + 1)
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    (receipt,) = open_book.say(book.test_of(leaks[0], attempts[0], result="not_tight"))
    assert receipt.raised == ()
    assert expired(open_book) == {(leaks[0], attempts[0], "materials.m1")}
    assert {str(r["subject_id"]) for r in stale(open_book)} == set(leaks[1:])
    outcomes = {str(r["id"]): r["outcome"] for r in rows(open_book.store, worked.ATTEMPT)}
    assert outcomes == {attempts[0]: "not_tight"} | dict.fromkeys(attempts[1:], "tight")


def test_a_stale_leak_worked_out_anew_loses_the_gap_that_no_longer_holds(open_book, few_at_once, monkeypatch):
    leaks, _ = repaired_with(open_book, open_book.lot, leaks=FEW + 1)
    with monkeypatch.context() as patched:
        patched.setattr(ground, "REFOLDED_AT_ONCE", 200)
        open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-12-31")))
    assert len(expired(open_book)) == FEW + 1
    open_book.say(book.grade(leaks[0]))
    assert {leak for leak, _attempt, _row in expired(open_book)} == set(leaks[1:])


def test_a_stale_leak_worked_out_anew_is_as_if_it_had_never_been_stale(open_book, few_at_once, monkeypatch):
    leaks, _ = repaired_with(open_book, open_book.lot, leaks=FEW + 1)
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))
    for leak in leaks:
        open_book.say(book.grade(leak))
    anew = copy_of(open_book.store, *WORKED_OF_A_LEAK)
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", 200)
    open_book.say(book.corrected(open_book.lot, ("maker", "Ansty")))
    assert (copy_of(open_book.store, *WORKED_OF_A_LEAK), stale(open_book)) == (anew, [])


def test_a_lot_and_a_repair_that_uses_it_in_one_call_with_its_correction(open_book):
    lot = book.new_id()
    leak = book.leak(open_book)
    attempt = book.attempt(leak["id"], materials=[{"key": "m1", "lot": lot}])
    received = {"kind": "lot_received", "id": lot, "area": open_book.area, "item": "tape", "lot_number": "W-2"}
    right = book.corrected(lot, ("expires_on", "2026-03-04"))
    receipts = open_book.say(received | {"happened": "2026-01-01"}, leak, attempt, right)
    assert [r.raised for r in receipts] == [(), (), ("expired_lot_used",), ()]


def test_what_repairs_name_a_lot_by_stays_tied_in_about(open_book):
    _, attempts = repaired_with(open_book, open_book.lot, leaks=2)
    tied = rows(open_book.store, facts.ABOUT, subject_id=UUID(open_book.lot), as_what="materials.lot")
    assert sorted(str(r["entry_id"]) for r in tied) == sorted(attempts)


def test_stale_leaks_are_worked_out_again_in_the_end_those_whose_lot_was_put_right_too(open_book, few_at_once):
    other = book.new_id()
    received = {"kind": "lot_received", "id": other, "area": open_book.area, "item": "tape", "lot_number": "W-3"}
    open_book.say(received | {"happened": "2025-06-01"})
    leaks, attempts = repaired_with(open_book, open_book.lot, leaks=FEW + 1)
    open_book.say(*[book.corrected(attempt, ("materials.m1.lot", other)) for attempt in attempts])
    open_book.say(book.corrected(other, ("expires_on", "2026-03-04")))
    assert (len(stale(open_book)), expired(open_book)) == (FEW + 1, set())
    assert fold_stale(open_book.store) == FEW + 1
    wanted = {(leak, attempt, "materials.m1") for leak, attempt in zip(leaks, attempts, strict=True)}
    assert (stale(open_book), expired(open_book)) == ([], wanted)
