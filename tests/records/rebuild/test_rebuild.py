"""Rebuilding brings back exactly what stood, whatever was done to the tables, and touches nothing beside."""

from __future__ import annotations

import pytest

from repairlog.records import post as door
from repairlog.records.post import fold_stale
from repairlog.records.rebuild import JournalAltered, check, expected, rebuild, tables
from repairlog.records.tables import ENGINE_VERSION, METADATA, beside, of_kind, worked
from tests.makers import book
from tests.makers.cells import Alteration, alter, delete, do, insert, others, raw_rows
from tests.makers.copies import copy_of, count, rows
from tests.makers.owner import drop_triggers, line_at, put_line

WORKED_OUT = of_kind("facts", "worked")


def test_every_table_is_of_one_of_four_kinds():
    kinds = dict(tables())
    assert set(kinds) == set(METADATA.tables)
    assert {kinds[name] for name in ("journal", "head", "rulebook_text")} == {"journal"}
    assert {kind: sum(each == kind for each in kinds.values()) for kind in set(kinds.values())} == {
        "journal": 3,
        "facts": len(of_kind("facts")),
        "worked": len(of_kind("worked")),
        "beside": len(of_kind("beside")),
    }


def test_rebuilding_twice_writes_what_stood_and_says_how_many_rows(full):
    store = full.book.store
    before, every = copy_of(store), sum(count(store, table) for table in WORKED_OUT)
    assert count(store, beside.PRIVATE_VALUE) > 0
    assert count(store, beside.UNFINISHED) > 0
    for _ in range(2):
        assert rebuild(store) == every
        assert copy_of(store) == before


def test_rebuilding_puts_every_altered_column_right(full):
    """One column of each table at a time, the key's too."""
    store, before = full.book.store, copy_of(full.book.store)
    for place in range(max(len(table.columns) for table in WORKED_OUT)):
        alterations = []
        for table in (each for each in WORKED_OUT if place < len(each.columns)):
            column, row = list(table.columns)[place], raw_rows(store, table)[0]
            put = others(store, column, row[column.name])[-1]
            alterations.append(Alteration(table, row, column.name, put))
        alter(store, alterations)
        assert len({difference.table for difference in check(store).differences}) == len(alterations)
        rebuild(store)
        assert copy_of(store) == before


def test_rebuilding_brings_back_what_was_deleted_and_takes_away_what_was_added(full):
    store, before = full.book.store, copy_of(full.book.store)
    for table in WORKED_OUT:
        row = raw_rows(store, table)[0]
        delete(store, table, row)
        if table.name not in ("entry", "leak"):
            insert(store, table, row | {c.name: others(store, c, row[c.name])[0] for c in table.primary_key})
    assert check(store).differences != ()
    rebuild(store)
    assert copy_of(store) == before


@pytest.mark.parametrize("at_once", [1, 2, 3, 1000])
def test_the_same_rows_are_worked_out_however_many_subjects_are_folded_at_once(full, monkeypatch, at_once):
    store, before = full.book.store, copy_of(full.book.store)
    monkeypatch.setattr(expected, "SUBJECTS_AT_ONCE", at_once)
    assert check(store).differences == ()
    rebuild(store)
    assert copy_of(store) == before


def test_rebuilding_fills_empty_tables(full):
    store, before = full.book.store, copy_of(full.book.store)
    for table in WORKED_OUT:
        do(store, f'DELETE FROM "{table.name}"')
    missing = check(store).differences
    assert len(missing) == sum(len(before[table.name]) for table in WORKED_OUT)
    assert {(each.column, each.stands) for each in missing} == {(None, None)}
    rebuild(store)
    assert copy_of(store) == before


def test_rows_of_an_older_engine_are_told_apart_and_named_by_that_column(full):
    store = full.book.store
    every = sum(count(store, table) for table in of_kind("worked"))
    for table in of_kind("worked"):
        do(store, f'UPDATE "{table.name}" SET engine = 0')
    found = check(store).differences
    said = {(each.column, each.stands, each.should, each.because) for each in found}
    assert (len(found), said) == (every, {("engine", "0", str(ENGINE_VERSION), "older_engine")})
    rebuild(store)
    assert check(store).differences == ()


def stale_book(store, monkeypatch):
    """Three leaks that used a lot, and a correction of the lot that is too much for one commit."""
    monkeypatch.setattr(door.ground, "REFOLDED_AT_ONCE", 2)
    open_book = book.opened(store)
    leaks = [book.leak(open_book) for _ in range(3)]
    materials = [{"key": "m1", "lot": open_book.lot}]
    used = [book.attempt(leak["id"], materials=materials) for leak in leaks]
    open_book.say(*leaks, *used)
    open_book.say(book.corrected(open_book.lot, ("expires_on", "2026-03-04")))


def test_what_waits_to_be_worked_out_again_is_stale_and_not_wrong_until_it_is(store, monkeypatch):
    stale_book(store, monkeypatch)
    found = check(store).differences
    assert [(each.table, each.column, each.stands, each.because) for each in found] == [
        ("gap", None, None, "stale")
    ] * 3
    assert {each.row["code"] for each in found} == {"expired_lot_used"}
    assert fold_stale(store) == 3
    assert check(store).differences == ()
    assert (rows(store, beside.STALE), count(store, worked.GAP)) == ([], 3)


def test_a_cell_that_is_wrong_beside_what_is_stale_is_wrong(store, monkeypatch):
    stale_book(store, monkeypatch)
    do(store, "UPDATE lot SET item = 'primer'")
    found = check(store).differences
    assert sorted((each.table, each.because) for each in found) == [("gap", "stale")] * 3 + [("lot", "wrong")]
    fold_stale(store)
    assert [(each.table, each.column, each.because) for each in check(store).differences] == [("lot", "item", "wrong")]


def test_rebuilding_works_out_what_was_stale_too_and_takes_the_marks_away(store, monkeypatch):
    stale_book(store, monkeypatch)
    rebuild(store)
    assert (check(store).differences, rows(store, beside.STALE)) == ((), [])


@pytest.mark.parametrize("harm", ["byte", "cut", "end", "place", "text"])
def test_nothing_is_worked_out_from_a_journal_that_is_not_what_was_sealed(store, harm):
    book.opened(store)
    drop_triggers(store)
    line = line_at(store, 3)
    if harm == "byte":
        put_line(store, 3, line.replace(b"2025-01-02", b"2025-13-02"))
    elif harm == "text":
        put_line(store, 3, b"no line")
    elif harm in ("cut", "end"):
        do(store, f"DELETE FROM journal WHERE journal_index {'=' if harm == 'cut' else '>='} 3")
    else:
        do(store, "UPDATE journal SET journal_index = 1000 WHERE journal_index = 3")
    before = copy_of(store)
    for work in (rebuild, check):
        with pytest.raises(JournalAltered) as told:
            work(store)
        assert told.value.facts == {"index": "3"}
    assert copy_of(store) == before
