"""A leak's story as it is read: the order of happening, what stood before, what was taken back, what was moved."""

from __future__ import annotations

import pytest
from sqlalchemy import event

from repairlog.access import EVERYTHING, NOTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.named import Named
from repairlog.records.queries.private import Private
from repairlog.records.store import Store
from repairlog.records.story import Story, story_of
from tests.makers import book as m


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def read(book: m.Book, leak: str, scope: Scope = EVERYTHING) -> Story | None:
    with book.store.reading() as tx:
        return story_of(scope, tx, leak=read_id(leak))


def said(story: Story) -> list[str]:
    return [told.entry.said["id"] for told in story.told]


def test_a_story_is_told_as_it_happened_however_it_came_in(book):
    leak = m.leak(book)
    grade, visit, source = m.grade(leak["id"]), m.visit(leak["id"]), m.source(leak["id"])
    on_the_source = m.note(source["id"], happened="2026-03-03 09:06")
    book.say(leak, grade)
    book.say(source, visit)
    book.say(on_the_source)
    story = read(book, leak["id"])
    assert said(story) == [each["id"] for each in (leak, visit, grade, source, on_the_source)]
    assert (story.leak.status, story.leak.grade_now.code) == ("open", "2")


def test_each_correction_is_told_with_what_stood_before_it(book):
    leak, seconds = m.leak(book), m.new_id()
    book.say(leak)
    first = m.corrected(leak["id"], ("street", "Quary Lane"))
    second = m.corrected(leak["id"], ("street", "Mill Lane"), id=seconds)
    third = m.corrected(leak["id"], ("town", None))
    book.say(first)
    book.say(m.corrected(first["id"], ("changes.c1.to", "Quarry Row")))
    book.say(second)
    book.say(m.void(second["id"]))
    book.say(third)
    (told,) = read(book, leak["id"]).told
    assert [version.text("street") for version in told.was] == ["Quarry Lane", "Quarry Row"]
    assert [version.text("town") for version in told.was] == ["Harrowsedge", "Harrowsedge"]
    assert (told.entry.text("street"), told.entry.text("town")) == ("Quarry Row", "")
    assert [each.said["id"] for each in told.corrections] == [first["id"], third["id"]]
    assert [each.said["id"] for each in told.undone] == [seconds]
    assert [each.kind for each in told.rightings] == ["corrected", "void"]
    assert told.voided_by is None


def test_a_void_entry_is_told_with_what_made_it_void_until_that_is_taken_back(book):
    leak = m.leak(book)
    grade = m.grade(leak["id"])
    void = m.void(grade["id"])
    book.say(leak, grade)
    book.say(void)
    told = read(book, leak["id"]).told[1]
    assert (told.voided_by.said["id"], told.undone) == (void["id"], ())
    book.say(m.void(void["id"]))
    told = read(book, leak["id"]).told[1]
    assert (told.voided_by, [each.said["id"] for each in told.undone]) == (None, [void["id"]])


def test_an_entry_that_was_moved_is_told_where_it_stands_and_its_leaving_where_it_stood(book):
    here, there = m.leak(book), m.leak(book, happened="2026-03-02")
    visit = m.visit(here["id"])
    move = m.corrected(visit["id"], ("leak", there["id"]))
    book.say(here, there, visit)
    book.say(move)
    stood, stands = read(book, here["id"]), read(book, there["id"])
    assert (said(stood), [each.said["id"] for each in stood.moved_away]) == ([here["id"]], [move["id"]])
    assert (said(stands), stands.moved_away) == ([there["id"], visit["id"]], ())
    assert stands.told[1].was[0].text("leak") == here["id"]


def test_what_a_story_names_is_told_by_name_and_leaks_only_in_scope(book):
    leak, foreign = m.leak(book), m.leak(book, area=book.other_area)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "lot": book.lot}])
    book.say(leak, foreign, attempt)
    book.say(m.ending(leak["id"], how="joined", joined_to=foreign["id"]), by=book.officer)
    here = Scope(areas=frozenset({read_id(book.area)}))
    names = read(book, leak["id"], here).named
    assert names[read_id(book.area)] == Named(kind="area", called="Eastmarsh")
    assert names[book.officer.person] == Named(kind="person", called="P. Lindqvist")
    lot = names[read_id(book.lot)]
    assert (lot.kind, lot.called, lot.lot.item, lot.lot.expires_on) == (
        "lot",
        "W-0118",
        "wrap tape, 2 in",
        "2026-09-30",
    )
    assert read_id(foreign["id"]) not in names
    assert read(book, leak["id"]).named[read_id(foreign["id"])] == Named(kind="leak", called="HF-26-0001")


def test_private_values_are_told_by_the_digest_that_stands_for_them_old_ones_too(book):
    leak = m.leak(book, reporter_name="J. Penrose")
    book.say(leak)
    book.say(m.corrected(leak["id"], ("reporter_name", "S. Hale")))
    story = read(book, leak["id"])
    (told,) = story.told
    digests = [version.private["reporter_name"] for version in (*told.was, told.entry)]
    assert [story.private[digest] for digest in digests] == [
        Private(value="J. Penrose", removed_on=""),
        Private(value="S. Hale", removed_on=""),
    ]


def test_a_story_outside_the_scope_is_none_and_what_is_no_leak_has_none(book):
    leak = m.leak(book, area=book.other_area)
    book.say(leak)
    assert read(book, leak["id"], Scope(areas=frozenset({read_id(book.area)}))) is None
    assert read(book, leak["id"], NOTHING) is None
    assert read(book, book.lot) is read(book, m.new_id()) is None


def test_a_long_story_takes_as_many_statements_as_a_short_one(book):
    leak = m.leak(book)
    book.say(leak, m.source(leak["id"]), m.note(leak["id"]))
    counted = [_statements(book, leak["id"])]
    book.say(*(m.visit(leak["id"]) for _ in range(20)), m.source(leak["id"]))
    assert [*counted, _statements(book, leak["id"])] == counted * 2


def _statements(book: m.Book, leak: str) -> int:
    seen: list[str] = []

    def see(_connection: object, _cursor: object, sql: str, *_rest: object) -> None:
        seen.append(sql)

    event.listen(book.store.engine, "before_cursor_execute", see)
    try:
        read(book, leak)
    finally:
        event.remove(book.store.engine, "before_cursor_execute", see)
    return len(seen)
