"""A subject that is moved to another area: what is worked out of it there, and what stays as it was said."""

from __future__ import annotations

from uuid import UUID

import pytest

from repairlog.access import EVERYTHING, Refused, Scope
from repairlog.intake import NotUnderstood
from repairlog.records.queries.leaks import Wanted, leaks
from repairlog.records.queries.moved_away import last_moved_away, moved_away
from repairlog.records.queries.settings import subjects
from repairlog.records.rebuild import check
from repairlog.records.tables import due, facts, worked
from tests.makers import book, calls, digs, stores
from tests.makers.copies import rows

CREW_THEN = "2026-03-04T18:00:00.000Z"


def there(open_book):
    return UUID(open_book.other_area)


def moved_leak(open_book, **move):
    """A leak with a gap, moved to Highfold on 5 March."""
    leak = book.leak(open_book)
    visit = book.visit(leak["id"], instrument="G-9")
    open_book.say(leak, visit, book.moved(leak["id"], open_book.other_area, **move))
    return leak["id"], visit["id"]


def test_every_worked_row_of_a_moved_leak_is_of_its_area_now_and_its_number_stays(open_book):
    open_book.say(book.adopted(open_book.other_area))
    leak, _visit = moved_leak(open_book)
    open_book.say(book.grade(leak, grade="1", happened="2026-03-03 09:00"), calls.watch(leak, happened="2026-03-05"))
    areas = {
        table.name: {row["area_id"] for row in rows(open_book.store, table)}
        for table in (worked.LEAK, worked.WATCH, worked.GAP, due.DUE_ITEM)
    }
    assert areas == {name: {there(open_book)} for name in ("leak", "watch", "gap", "due_item")}
    (row,) = rows(open_book.store, worked.LEAK)
    assert row["number"] == "ES-26-0001"
    (opened,) = rows(open_book.store, facts.SUBJECT, kind="leak")
    assert opened["area_id"] == UUID(open_book.area)
    assert check(open_book.store).differences == ()


def test_one_of_each_kind_is_moved_and_the_journal_alone_tells_the_same(sqlite_open_book):
    own = sqlite_open_book
    leak = book.leak(own)
    every = [leak, calls.call(own), digs.dig(own, [leak["id"]]), digs.place(own), stores.received(own)]
    every += [stores.shelf(own), book.crew(own), book.instrument(own)]
    own.say(*every, *(book.moved(each["id"], own.other_area) for each in every))
    with own.store.reading() as tx:
        found = subjects(EVERYTHING, tx, ids=[UUID(each["id"]) for each in every])
    assert {row.area for row in found} == {there(own)}
    assert check(own.store).differences == ()


@pytest.mark.parametrize("of", ["person", "area", "operator", "source"])
def test_a_person_an_area_an_operator_and_a_source_are_not_moved(sqlite_open_book, of):
    own = sqlite_open_book
    leak = book.leak(own)
    source = book.source(leak["id"])
    own.say(leak, source)
    ids = {"person": str(own.crew.person), "area": own.area, "operator": own.operator, "source": source["id"]}
    with pytest.raises(NotUnderstood) as refused:
        own.say(book.moved(ids[of], own.other_area))
    assert [(each.field, each.code) for each in refused.value.complaints] == [("subject", "subject_of_other_kind")]


def test_out_of_order_void_and_put_right_it_answers_to_where_the_last_move_that_stands_brought_it(sqlite_open_book):
    own = sqlite_open_book
    leak = book.leak(own)
    back, go = book.moved(leak["id"], own.area, happened="2026-03-05"), book.moved(leak["id"], own.other_area)
    own.say(leak, back)
    own.say(go | {"happened": "2026-03-04"})
    assert area_of(own) == UUID(own.area)
    own.say(void := book.void(back["id"]))
    assert area_of(own) == there(own)
    own.say(book.void(void["id"]), book.corrected(back["id"], ("happened", "2026-03-03")))
    assert area_of(own) == there(own)
    own.say(book.corrected(go["id"], ("to_area", own.area)))
    assert area_of(own) == UUID(own.area)
    assert check(own.store).differences == ()


def area_of(own):
    (row,) = rows(own.store, worked.LEAK)
    return row["area_id"]


def test_what_is_adopted_where_it_went_counts_and_what_is_adopted_where_it_was_counts_no_more(open_book):
    leak, _visit = moved_leak(open_book)
    open_book.say(book.grade(leak, grade="1", happened="2026-03-03 09:00"))
    open_book.say(book.adopted(open_book.area))
    assert rows(open_book.store, due.DUE_ITEM) == []
    open_book.say(book.adopted(open_book.other_area))
    assert {row["area_id"] for row in rows(open_book.store, due.DUE_ITEM)} == {there(open_book)}
    assert check(open_book.store).differences == ()


def test_a_grade_set_before_the_move_is_still_judged_by_the_area_of_that_day(open_book):
    """The area it left adopts a rulebook later, for days before the move."""
    leak = book.leak(open_book)
    visit, grade = book.visit(leak["id"]), book.grade(leak["id"], grade="3", happened="2026-03-03 09:00")
    open_book.say(leak, visit, grade, book.moved(leak["id"], open_book.other_area))
    open_book.say(book.adopted(open_book.area))
    assert check(open_book.store).differences == ()


def test_a_later_day_is_read_by_the_clock_of_where_it_went_and_an_earlier_one_by_that_of_where_it_was(sqlite_open_book):
    own = sqlite_open_book
    leak, visit = moved_leak(own, happened="2026-03-04")
    early, late = (book.note(leak, happened=f"2026-03-0{day} 07:00") for day in (3, 5))
    own.say(early, late)
    own.say(book.corrected(visit, ("instrument", "G-10")), book.corrected(early["id"], ("text", "seen twice")))
    zones = {str(r["id"]): (r["zone"], r["happened_on"].isoformat()) for r in rows(own.store, facts.ENTRY)}
    assert zones[early["id"]] == ("America/New_York", "2026-03-03")
    assert zones[late["id"]] == ("America/Denver", "2026-03-05")
    assert zones[visit] == ("America/New_York", "2026-03-03")


def test_who_was_there_before_posts_what_they_wrote_before_and_nothing_since(sqlite_open_book):
    own = sqlite_open_book
    leak, _visit = moved_leak(own)
    own.say(book.note(leak, written=CREW_THEN, happened="2026-03-04"), by=own.crew)
    (move,) = rows(own.store, worked.MOVED)
    own.say(book.corrected(str(move["entry_id"]), ("happened", "2026-03-03")))  # it had left when that was written
    with pytest.raises(Refused):
        own.say(book.note(leak, written=CREW_THEN, happened="2026-03-04"), by=own.crew)


def test_only_who_has_a_role_in_both_areas_moves_it_and_takes_it_back(sqlite_open_book):
    own = sqlite_open_book
    leak = book.leak(own)
    own.say(leak)
    move = book.moved(leak["id"], own.other_area)
    with pytest.raises(Refused):
        own.say(move, by=own.supervisor)
    own.say(move, by=own.officer)
    for righting in (book.void(move["id"]), book.corrected(move["id"], ("to_area", own.area))):
        with pytest.raises(Refused):
            own.say(righting, by=own.supervisor)
        own.say(righting, by=own.officer)


def test_the_lists_have_it_where_it_went_and_tell_where_it_was_that_it_went(sqlite_open_book):
    own = sqlite_open_book
    own.say(book.adopted(own.other_area))
    leak, _visit = moved_leak(own)
    own.say(book.grade(leak, grade="1", happened="2026-03-03 09:00"))
    here, gone = (Scope(areas=frozenset({UUID(area)})) for area in (own.other_area, own.area))
    with own.store.reading() as tx:
        listed = [[str(row.id) for row in leaks(s, tx, where=Wanted(), beyond=None, most=9)] for s in (here, gone)]
        away = [moved_away(s, tx, after=None, most=9) for s in (here, gone)]
        told, still = (last_moved_away(s, tx, id=UUID(leak)) for s in (gone, EVERYTHING))
    assert listed == [[leak], []]
    assert [[each.called for each in every] for every in away] == [[], ["ES-26-0001"]]
    assert told is not None
    assert still is not None
    assert (told.kind, told.on, told.from_area, told.to_area, told.seen, still.seen) == (
        "leak",
        "2026-03-05",
        "Eastmarsh",
        "Highfold",
        False,
        True,
    )
