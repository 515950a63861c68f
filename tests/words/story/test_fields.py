"""Any kind can be read from how it is declared, with no word about it anywhere else."""

from __future__ import annotations

import pytest

from repairlog.access import EVERYTHING
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KEPT_AS_TEXT, KINDS
from repairlog.records.store import Store
from repairlog.records.story import Story, story_of
from repairlog.trade.bar_holes import bar_holes, holes_by_name
from repairlog.words.boxes import head, label
from repairlog.words.story.fields import own_fields, own_lists
from repairlog.words.story.kinds import kind_of
from repairlog.words.story.reader import reader_of
from tests.makers import book as m
from tests.makers.full_book import FullBook, filled


@pytest.fixture
def full(sqlite_store: Store) -> FullBook:
    return filled(sqlite_store)


def story(full: FullBook, name: str) -> Story:
    with full.book.store.reading() as tx:
        return story_of(EVERYTHING, tx, leak=read_id(full.ids[name]))


def test_whatever_an_entry_says_is_told_where_nothing_else_is_said_about_its_kind(full):
    told_of = set()
    for name in ("ended", "troubled", "joined"):
        reader = reader_of(of := story(full, name))
        for told in of.told:
            kind = KINDS[told.entry.kind]
            fields = [item.label for _long, item in own_fields(reader, told, told_already=())]
            lists = [item.label for item in own_lists(reader, told, told_already=())]
            hidden = {kind.folds_in, "area", "happened", "happened_known"}
            said = {**told.entry.said, **told.entry.private}
            assert {head(each.says) for each in kind.fields if each.name in said and each.name not in hidden} <= {
                *fields
            }
            assert lists == [label(r.says) for r in kind.rows if told.entry.rows(r.name) and r is not KEPT_AS_TEXT]
            told_of.add(kind.name)
    assert told_of > {"visit", "repair_attempted", "leak_ended"}


def test_a_kind_that_nobody_said_a_word_about_has_its_own_as_a_title(full):
    reader = reader_of(of := story(full, "ended"))
    assert kind_of("a kind to come").heading(reader, of.told[0].entry) == ("A leak is opened", "", True)


def test_bar_holes_bear_the_numbers_that_the_leak_gives_them(full):
    book, leak = full.book, full.ids["joined"]
    first = m.visit(leak, happened="2026-03-04")
    again = m.visit(
        leak,
        happened="2026-03-03 12:00",  # before: it numbers the holes
        places=[
            {"key": "p1", "kind": "bar_hole", "same_as": f"{first['id']}/p2"},
            {"key": "p2", "kind": "bar_hole"},
            {"key": "p3", "kind": "vault", "same_as": f"{first['id']}/p1"},
        ],
        readings=[],
    )
    book.say(first)
    book.say({name: value for name, value in again.items() if value})
    live = [told.entry for told in story(full, "joined").told if told.entry.void is None]
    numbers = holes_by_name(live)
    assert {f"{hole.entry}/{hole.key}": hole.number for hole in bar_holes(live)}.items() <= numbers.items()
    names = (f"{again['id']}/p1", f"{first['id']}/p2", f"{again['id']}/p2", f"{first['id']}/p1", f"{again['id']}/p3")
    assert [numbers.get(name) for name in names] == [1, 1, 2, 3, None]
