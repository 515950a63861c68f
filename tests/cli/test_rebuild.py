"""`repairlog rebuild`: compares, lists, works out what waits, or writes every table anew."""

from __future__ import annotations

import json

import pytest

from repairlog.records import rebuild as tables_of
from repairlog.records.post import ground
from repairlog.records.store import open_store
from repairlog.records.tables import ENGINE_VERSION, worked
from tests.makers import book
from tests.makers.cells import do
from tests.makers.command import process
from tests.makers.copies import copy_of, rows
from tests.makers.owner import drop_triggers, put_line
from tests.makers.rulebooks import RULEBOOKS


@pytest.fixture
def store(made):
    opened = open_store(made, rulebooks=RULEBOOKS)
    yield opened
    opened.close()


def test_tables_that_are_as_the_journal_says_end_0(say, made):
    text = say("rebuild", "--check", "--database", made)
    assert (text.code, text.out, text.err) == (0, "34 rows stand as the journal says\n", "")
    as_json = say("rebuild", "--check", "--json", "--database", made)
    assert (as_json.code, as_json.out, as_json.err) == (0, "", "")


def test_every_difference_is_a_line_and_the_end_is_1(say, made, store):
    do(store, "UPDATE area SET code = 'WS', elevation = NULL")
    do(store, "DELETE FROM person_added")
    (area,) = rows(store, worked.AREA)
    text = say("rebuild", "--check", "--database", made)
    lines = text.out.splitlines()
    assert (text.code, len(lines)) == (1, 3)
    assert lines[0].startswith("person_added id=")  # what was said comes before what follows from it
    assert ": missing: id=" in lines[0]
    assert lines[1].endswith(": code is WS, should be ES")
    assert lines[2].endswith(": elevation is nothing, should be 1609.344 m")
    assert text.err == "3 wrong, 0 waiting to be worked out again, 0 of an older release\n"
    as_json = say("rebuild", "--check", "--json", "--database", made)
    objects = [json.loads(line) for line in as_json.out.splitlines()]
    assert (as_json.code, as_json.err, len(objects)) == (1, "", 3)
    assert all(each.keys() == {"table", "row", "column", "stands", "should", "because"} for each in objects)
    cells = [(each["table"], each["column"], each["stands"], each["should"]) for each in objects[1:]]
    assert cells == [("area", "code", "WS", "ES"), ("area", "elevation", None, "1609.344 m")]
    assert [each["row"]["id"].replace("-", "") for each in objects[1:]] == [area["id"].hex] * 2
    assert (objects[0]["column"], objects[0]["stands"]) == (None, None)


def test_writing_anew_says_how_many_rows_and_mends_what_differed(say, made, store):
    before = copy_of(store)
    do(store, "UPDATE area SET code = 'WS'")
    text = say("rebuild", "--database", made)
    assert (text.code, text.out) == (0, "34 rows were written from the journal\n")
    assert copy_of(store) == before
    as_json = say("rebuild", "--json", "--database", made)
    assert (as_json.code, json.loads(as_json.out)) == (0, {"rows": 34})


def test_the_list_names_every_table_and_its_kind_and_needs_no_database(say):
    answer = say("rebuild", "--list", "--json", "--database", "sqlite:////nowhere/book.db")
    listed = json.loads(answer.out)
    assert answer.code == 0
    assert listed == [{"table": name, "kind": kind} for name, kind in tables_of.tables()]
    text = say("rebuild", "--list").out.splitlines()
    assert text == [f"{each['kind']:8}{each['table']}" for each in listed]


def test_what_waits_is_told_apart_and_worked_out(say, database_url, monkeypatch):
    monkeypatch.setattr(ground, "REFOLDED_AT_ONCE", 0)
    store = open_store(database_url, rulebooks=RULEBOOKS)
    opened = book.opened(store)
    leak = book.leak(opened)
    opened.say(leak, book.attempt(leak["id"], materials=[{"key": "m1", "lot": opened.lot}]))
    opened.say(book.corrected(opened.lot, ("expires_on", "2026-03-04")))
    store.close()
    waiting = say("rebuild", "--check", "--database", database_url)
    assert (waiting.code, waiting.err) == (1, "0 wrong, 1 waiting to be worked out again, 0 of an older release\n")
    assert waiting.out.endswith(" (waits to be worked out again)\n")
    worked_out = say("rebuild", "--stale", "--json", "--database", database_url)
    assert (worked_out.code, json.loads(worked_out.out)) == (0, {"worked_out": 1})
    assert say("rebuild", "--stale", "--database", database_url).out == "0 leaks were worked out again\n"
    assert say("rebuild", "--check", "--database", database_url).code == 0


def test_rows_of_an_older_release_are_told_apart(say, made, store):
    do(store, "UPDATE area SET engine = 0")
    answer = say("rebuild", "--check", "--database", made)
    assert (answer.code, answer.err.splitlines()[0]) == (
        1,
        "0 wrong, 0 waiting to be worked out again, 1 of an older release",
    )
    assert answer.out.endswith(f": engine is 0, should be {ENGINE_VERSION} (worked out by an older release)\n")


@pytest.mark.parametrize("two", [("--check", "--stale"), ("--check", "--list"), ("--stale", "--list")])
def test_only_one_way_at_a_time(say, two):
    answer = say("rebuild", *two, "--database", "sqlite:////nowhere/book.db")
    assert (answer.code, answer.out) == (2, "")
    told = "Usage: repairlog rebuild [OPTIONS]\n--check, --stale and --list exclude each other; give one of them\n"
    assert answer.err == told


@pytest.mark.parametrize("how", [(), ("--check",)])
def test_a_journal_that_was_altered_is_told_in_a_sentence_and_ends_1(say, made, store, how):
    drop_triggers(store)
    put_line(store, 1, b"{}")
    before = copy_of(store)
    answer = say("rebuild", *how, "--database", made)
    assert (answer.code, answer.out) == (1, "")
    assert answer.err.startswith("Line 1 of the journal is not the one that was sealed there; ")
    assert copy_of(store) == before


def test_both_ways_are_there_as_a_process_of_their_own(made):
    compared, written = process("rebuild", "--check", "--database", made), process("rebuild", "--database", made)
    assert (compared.code, written.code, compared.err + written.err) == (0, 0, "")


@pytest.mark.parametrize("words", [("rebuild",), ("rebuild", "--check")], ids=["write", "check"])
def test_tables_that_are_gone_are_named_in_a_sentence(say, made, store, words):
    do(store, "DROP TABLE gap")
    answer = say(*words, "--database", made)
    assert (answer.code, answer.out) == (1, "")
    assert answer.err == "Tables of the book are gone: gap. Nothing was written. Restore the last backup.\n"
