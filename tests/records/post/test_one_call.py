"""A call is recorded whole or not at all, in its order; its entries may name each other."""

from uuid import UUID

import pytest

from repairlog.access import Refused
from repairlog.entries.entry import Moments
from repairlog.intake import NotUnderstood, WaitsFor
from repairlog.intake.call import understand
from repairlog.records.beside.unfinished import Unfinished, keep
from repairlog.records.post import Conflict, NotThere, post
from repairlog.records.tables import beside, facts, worked
from tests.makers import book
from tests.makers.copies import changed, copy_of, count, rows


def posted(open_book, *call, by=None):
    """Straight through the door, without what `record` keeps of a call that failed."""
    by = by or open_book.everyone
    moments = Moments(received=book.RECEIVED)
    return post(
        open_book.store,
        understand(open_book.store, list(call), actor=by, moments=moments),
        actor=by,
        moments=moments,
    )


def test_entries_of_one_call_may_name_each_other_area_person_lot_leak_and_correction_too(open_book):
    area, person, lot = book.new_id(), book.new_id(), book.new_id()
    day = {"happened": "2026-03-01"}
    leak = book.leak(open_book, area=area)
    source = book.source(leak["id"])
    attempt = book.attempt(
        leak["id"],
        source=source["id"],
        materials=[{"key": "m1", "lot": lot}],
        people=[{"key": "p1", "person": person, "task": "install clamp"}],
    )
    right = book.corrected(attempt["id"], ("outcome", "not_tight"))
    receipts = open_book.say(
        {"kind": "area_opened", "id": area, "name": "Weirside", "code": "WS", "zone": "America/Chicago", **day},
        {"kind": "person_added", "id": person, "name": "T. Birkett", **day},
        {"kind": "lot_received", "id": lot, "area": area, "item": "clamp", "lot_number": "K-8", **day},
        leak,
        source,
        attempt,
        right,
        book.void(right["id"]),
    )
    assert [r.index for r in receipts] == list(range(8, 16))
    stands = rows(open_book.store, worked.ATTEMPT)
    assert [(r["source_id"], r["number"], r["outcome"]) for r in stands] == [(UUID(source["id"]), 1, "tight")]
    assert receipts[3].number == "WS-26-0001"


@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_call_with_one_conflict_writes_nothing_of_the_others(open_book, place):
    stands = book.leak(open_book)
    open_book.say(stands)
    call = [book.leak(open_book) for _ in range(2)]
    call.insert(place, stands | {"house_number": "15"})
    before = copy_of(open_book.store)
    with pytest.raises(Conflict):
        open_book.say(*call)
    assert copy_of(open_book.store) == before


@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_call_with_one_entry_that_is_refused_leaves_every_table_as_it_was(open_book, place):
    call = [book.leak(open_book) for _ in range(2)]
    call.insert(place, book.leak(open_book, area=open_book.other_area))
    before = copy_of(open_book.store)
    with pytest.raises(Refused) as refused:
        posted(open_book, *call, by=open_book.crew)
    assert (refused.value.kind, refused.value.position) == ("leak_opened", place)
    assert copy_of(open_book.store) == before


def test_what_was_refused_at_the_way_in_is_kept_as_unfinished_and_nothing_else_changes(open_book):
    before = copy_of(open_book.store)
    leak = book.leak(open_book, area=open_book.other_area)
    with pytest.raises(Refused):
        open_book.say(leak, by=open_book.crew)
    assert changed(before, copy_of(open_book.store)) == {"unfinished"}
    assert [(r["id"], r["because"]) for r in rows(open_book.store, beside.UNFINISHED)] == [
        (UUID(leak["id"]), "refused")
    ]


NOBODY = "019cb4d0-1180-7abc-9def-0000000000ff"


@pytest.mark.parametrize(
    "entry",
    [
        lambda b, leak, attempt: book.attempt(leak, materials=[{"key": "m1", "lot": NOBODY}]),
        lambda b, leak, attempt: book.attempt(leak, source=NOBODY),
        lambda b, leak, attempt: book.attempt(leak, people=[{"key": "p1", "person": NOBODY}]),
        lambda b, leak, attempt: book.attempt(leak, did=[{"key": "d1", "person": NOBODY}]),
        lambda b, leak, attempt: book.test_of(leak, NOBODY),
        lambda b, leak, attempt: book.review(leak, NOBODY),
        lambda b, leak, attempt: book.ending(leak, [attempt, NOBODY]),
        lambda b, leak, attempt: book.ending(leak, how="joined", joined_to=NOBODY),
        lambda b, leak, attempt: book.corrected(attempt, ("leak", NOBODY)),
        lambda b, leak, attempt: book.corrected(attempt, ("materials.m1.lot", NOBODY)),
        lambda b, leak, attempt: book.corrected(attempt, ("source", NOBODY)),
        lambda b, leak, attempt: book.corrected(NOBODY, ("outcome", "tight")),
        lambda b, leak, attempt: book.void(NOBODY),
        lambda b, leak, attempt: book.grade(NOBODY),
        lambda b, leak, attempt: book.leak(b, area=NOBODY),
    ],
)
def test_what_names_something_that_is_not_there_is_not_posted_and_says_which(open_book, entry):
    leak = book.leak(open_book)
    attempt = book.attempt(leak["id"])
    open_book.say(leak, attempt)
    before = copy_of(open_book.store)
    call = entry(open_book, leak["id"], attempt["id"])
    with pytest.raises(NotThere) as missing:
        posted(open_book, book.leak(open_book), call)
    assert missing.value.ids == {UUID(NOBODY)}
    assert copy_of(open_book.store) == before


def test_what_waited_for_a_subject_is_posted_when_it_comes_and_its_unfinished_row_goes(open_book):
    leak = book.leak(open_book)
    grade = book.grade(leak["id"])
    with pytest.raises(WaitsFor) as waits:
        open_book.say(grade)
    assert waits.value.ids == {UUID(leak["id"])}
    assert [r["because"] for r in rows(open_book.store, beside.UNFINISHED)] == ["waits"]
    open_book.say(leak)
    assert (count(open_book.store, beside.UNFINISHED), count(open_book.store, beside.WAITS_FOR)) == (0, 0)
    assert [r["grade_now"] for r in rows(open_book.store, worked.LEAK)] == ["2"]


def test_what_waited_is_tried_also_when_its_subject_is_sent_again_after_a_crash_behind_the_commit(open_book):
    leak = book.leak(open_book)
    with pytest.raises(WaitsFor):
        open_book.say(book.grade(leak["id"]))
    posted(open_book, leak)  # recorded, and then the process was gone
    assert [r["grade_now"] for r in rows(open_book.store, worked.LEAK)] == [None]
    assert [receipt.new for receipt in open_book.say(leak)] == [False]
    assert [r["grade_now"] for r in rows(open_book.store, worked.LEAK)] == ["2"]


def test_the_unfinished_row_of_an_entry_goes_in_the_commit_that_records_it(open_book):
    leak, other = book.leak(open_book), book.leak(open_book)
    with pytest.raises(NotUnderstood):
        open_book.say(leak | {"detected_by": "nose"})
    keep(
        open_book.store,
        Unfinished(
            id=UUID(other["id"]),
            person=open_book.crew.person,
            because="left",
            form="leak",
            raw={},
            kept_at=book.RECEIVED,
        ),
    )
    open_book.say(leak)
    assert [r["id"] for r in rows(open_book.store, beside.UNFINISHED)] == [UUID(other["id"])]


def test_an_entry_twice_in_one_call_is_recorded_once_and_has_two_receipts(open_book):
    leak = book.leak(open_book, reporter_name="J. Thwaite")
    before = count(open_book.store, facts.ENTRY)
    first, second = open_book.say(leak, dict(leak))
    assert first == second
    assert count(open_book.store, facts.ENTRY) == before + 1
