"""A correction of a correction may itself move an entry to another leak, and may bring in another lot."""

from __future__ import annotations

from uuid import UUID

import pytest

from repairlog.access import Refused
from repairlog.intake import WaitsFor
from repairlog.records.rebuild import check
from repairlog.records.tables import facts, worked
from tests.makers import book
from tests.makers.copies import copy_of, rows


def three_leaks(open_book):
    """Three leaks, the third in the other area; an attempt on the first that was moved to the second."""
    one, two, three = book.leak(open_book), book.leak(open_book), book.leak(open_book, area=open_book.other_area)
    moving = book.attempt(one["id"], happened="2026-03-05 07:10")
    move = book.corrected(moving["id"], ("leak", two["id"]))
    open_book.say(one, two, three, moving)
    open_book.say(move)
    return one["id"], two["id"], three["id"], moving["id"], move["id"]


def attempts(open_book):
    return {str(row["id"]): row["attempts"] for row in rows(open_book.store, worked.LEAK)}


def tied(open_book, entry):
    """The leaks whose stories know of that correction."""
    return {str(r["subject_id"]) for r in rows(open_book.store, facts.ABOUT, entry_id=UUID(entry), as_what="rights")}


def test_a_correction_of_a_move_folds_the_leak_that_it_moves_to(open_book):
    one, two, three, _moving, move = three_leaks(open_book)
    onward = book.corrected(move, ("changes.c1.to", three))
    open_book.say(onward)
    assert attempts(open_book) == {one: 0, two: 0, three: 1}
    assert tied(open_book, onward["id"]) == tied(open_book, move) == {one, two, three}
    assert check(open_book.store).differences == ()


def test_a_move_that_a_void_brings_back_folds_the_leak_that_it_had_moved_to(open_book):
    one, two, three, _moving, move = three_leaks(open_book)
    onward, back = book.corrected(move, ("changes.c1.to", three)), book.corrected(move, ("changes.c1.to", one))
    open_book.say(onward)
    open_book.say(back)
    assert attempts(open_book) == {one: 1, two: 0, three: 0}
    open_book.say(book.void(back["id"]))
    assert attempts(open_book) == {one: 0, two: 0, three: 1}
    assert check(open_book.store).differences == ()


def test_a_correction_of_a_correction_of_a_move_in_one_call_with_both_folds_only_where_it_ends(open_book):
    one, two, three, _moving, move = three_leaks(open_book)
    onward = book.corrected(move, ("changes.c1.to", one))
    open_book.say(onward, book.corrected(onward["id"], ("changes.c1.to", three)))
    assert attempts(open_book) == {one: 0, two: 0, three: 1}
    assert check(open_book.store).differences == ()


def test_a_correction_of_a_move_to_a_leak_that_is_not_there_waits_for_it(open_book):
    _one, _two, _three, _moving, move = three_leaks(open_book)
    later = book.leak(open_book)
    with pytest.raises(WaitsFor) as waits:
        open_book.say(book.corrected(move, ("changes.c1.to", later["id"])))
    assert waits.value.ids == {UUID(later["id"])}
    open_book.say(later)
    assert attempts(open_book)[later["id"]] == 1
    assert check(open_book.store).differences == ()


def test_a_correction_of_a_move_into_another_area_asks_for_a_role_there(open_book):
    _one, _two, three, _moving, move = three_leaks(open_book)
    before = copy_of(open_book.store, worked.LEAK, facts.ENTRY)
    with pytest.raises(Refused):
        open_book.say(book.corrected(move, ("changes.c1.to", three)), by=open_book.supervisor)
    assert copy_of(open_book.store, worked.LEAK, facts.ENTRY) == before


def test_a_lot_that_a_correction_of_a_correction_brings_in_is_looked_at(open_book):
    """The lot that it names in the end had expired; the one named first had not."""
    day = {"happened": "2026-01-02", "expires_on": "2026-03-04"}
    lot = {"kind": "lot_received", "id": book.new_id(), "area": open_book.area, "item": "primer", "lot_number": "P-1"}
    leak = book.leak(open_book)
    attempt = book.attempt(leak["id"], materials=[{"key": "m1", "named": "W-81?"}])
    right = book.corrected(attempt["id"], ("materials.m1.named", None), ("materials.m1.lot", open_book.lot))
    open_book.say(lot | day, leak, attempt, right)
    assert [row["code"] for row in rows(open_book.store, worked.GAP)] == []
    open_book.say(book.corrected(right["id"], ("changes.c2.to", lot["id"])))
    assert [row["code"] for row in rows(open_book.store, worked.GAP)] == ["expired_lot_used"]
    assert check(open_book.store).differences == ()
