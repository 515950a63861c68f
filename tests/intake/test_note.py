"""A note stands on anything there is, and is as sealed as the rest."""

from datetime import date

import pytest
from sqlalchemy import select

from repairlog.access import Refused
from repairlog.entries.ids import read_id
from repairlog.intake import NotUnderstood, WaitsFor
from repairlog.records.rebuild import check
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_KIND
from tests.intake.lines import is_there
from tests.makers import book as m
from tests.makers.book import Book


def test_a_note_stands_in_the_story_of_what_it_is_on_whatever_that_is(book: Book) -> None:
    leak = m.leak(book)
    source = m.source(leak["id"])
    book.say(leak, source)
    subjects = [leak["id"], source["id"], book.lot, book.area, book.operator, str(book.crew.person)]
    notes = [m.note(subject) for subject in subjects]
    receipts = book.say(*notes)
    assert [receipt.number for receipt in receipts] == ["ES-26-0001", "", "", "", "", ""]
    with book.store.reading() as tx:
        stands = tx.connection.execute(select(ENTRY.c.id, ENTRY.c.subject_id).where(ENTRY.c.kind == "note")).all()
        about = tx.connection.execute(select(ABOUT.c.subject_id).where(ABOUT.c.as_what == "subject")).scalars()
        assert {str(row.id): str(row.subject_id) for row in stands} == {n["id"]: n["subject"] for n in notes}
        assert sorted(map(str, about)) == sorted(subjects)
        said = tx.connection.execute(select(OF_KIND["note"]).where(OF_KIND["note"].c.id == read_id(notes[0]["id"])))
        assert tuple(said.one()) == (*(read_id(notes[0]["id"]), read_id(leak["id"]), "2026-03-04", "dog in the yard"),)
    assert check(book.store).differences == ()


def test_a_note_is_dated_in_the_zone_of_what_it_is_on(book: Book) -> None:
    leak = m.leak(book, area=book.other_area, happened="2026-03-03")
    on_leak, on_person = (m.note(id, happened="2026-03-04 23:30 -05:00") for id in (leak["id"], str(book.crew.person)))
    book.say(leak, on_leak, on_person)
    with book.store.reading() as tx:
        days = tx.connection.execute(
            select(ENTRY.c.id, ENTRY.c.happened_on, ENTRY.c.zone).where(ENTRY.c.kind == "note")
        )
        assert {(str(row.id), row.happened_on, row.zone) for row in days} == {
            (on_leak["id"], date(2026, 3, 4), "America/Denver"),
            (on_person["id"], date(2026, 3, 4), "America/New_York"),
        }


def test_a_note_on_nothing_and_a_note_that_says_nothing_are_sent_back(book: Book) -> None:
    with pytest.raises(NotUnderstood) as problem:
        book.say(m.note(book.lot) | {"subject": "", "text": " "})
    assert [(each.field, each.code) for each in problem.value.complaints] == [
        *(("subject", "field_missing"), ("text", "field_missing")),
    ]


@pytest.mark.parametrize(("length", "taken"), [(3999, True), (4000, True), (4001, False)])
def test_a_note_has_up_to_four_thousand_characters(book: Book, length: int, taken: bool) -> None:
    note = m.note(book.lot, text="n" * length)
    if taken:
        book.say(note)
    else:
        with pytest.raises(NotUnderstood):
            book.say(note)
    assert is_there(book.store, note["id"]) is taken


def test_a_note_on_what_is_not_there_waits_for_it(book: Book) -> None:
    leak = m.leak(book)
    note = m.note(leak["id"])
    with pytest.raises(WaitsFor):
        book.say(note)
    book.say(leak)
    assert is_there(book.store, note["id"])


def test_a_crew_notes_in_its_own_area_and_no_other(book: Book) -> None:
    own, other = m.leak(book), m.leak(book, area=book.other_area)
    book.say(own, other)
    book.say(m.note(own["id"]), by=book.crew)
    with pytest.raises(Refused):
        book.say(m.note(other["id"]), by=book.crew)
