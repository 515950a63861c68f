"""A list taken into the book: once, twice, in part, and only looked at."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from pathlib import Path
from typing import Any

from sqlalchemy import select

from repairlog.intake.lists import Refusal, Tally
from repairlog.records import rebuild, verify
from repairlog.records.tables import METADATA, worked
from repairlog.records.tables.facts import ENTRY, OF_KIND
from tests.makers.book import Book
from tests.makers.old_lists import COLUMNS, put, rows, taken

FINE = "700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,Not Found Yet,2A,4/11/16,"
EARLY = "700002,3 MILL LN,,HARROWSEDGE,4/10/16,3,1,4/9/16,"
UNREAD = "700003,5 MILL LN,,HARROWSEDGE,4/10/16,3,1,in spring,"
UNKEPT = f"700004,{'5 MILL LN' * 40},,HARROWSEDGE,4/10/16,3,1,4/12/16,"
COMING = "700005,5 MILL LN,,HARROWSEDGE,4/10/16,3,1,4/12/36,"
UNRANKED = "700006,7 MILL LN,,HARROWSEDGE,4/10/16,Not Found Yet,3B,4/12/16,pole"


def counts(of: Tally) -> tuple[int, int, int, int]:
    """Rows, taken, already here, refused."""
    return of.rows, of.taken, of.already_here, of.refused


def refusals(of: Tally) -> list[tuple[int, str, str]]:
    return [(each.line, each.column, each.code) for each in of.complaints]


def leaks(book: Book) -> list[tuple[Any, ...]]:
    """Number, status, grade and day of the end of every leak, by number."""
    leak = worked.LEAK.c
    columns = select(leak.number, leak.status, leak.grade_now, leak.ended_on).order_by(leak.number)
    with book.store.reading() as tx:
        return [(n, status, grade, str(on) if on else None) for n, status, grade, on in tx.connection.execute(columns)]


def kinds(book: Book) -> dict[str, int]:
    """How many live entries of each kind the leaks have."""
    told: dict[str, int] = {}
    with book.store.reading() as tx:
        for (kind,) in tx.connection.execute(select(ENTRY.c.kind).where(ENTRY.c.sure == "import")):
            told[kind] = told.get(kind, 0) + 1
    return told


def everything(book: Book) -> str:
    """A digest of every row of every table."""
    digest = hashlib.sha256()
    with book.store.reading() as tx:
        for table in METADATA.sorted_tables:
            digest.update(repr(sorted(map(repr, tx.connection.execute(select(table))))).encode())
    return digest.hexdigest()


def test_a_list_is_taken_in_and_the_journal_and_the_tables_hold(book: Book, tmp_path: Path) -> None:
    tally = taken(book, put(tmp_path / "list.csv", [FINE, EARLY, UNRANKED]))
    assert (counts(tally), tally.complaints) == ((3, 3, 0, 0), [])
    assert dict(tally.raised) == {"repaired_before_reported": 1, "grade_not_known": 1}
    assert leaks(book) == [
        ("700001", "ended", "2A", "2016-04-11"),
        ("700002", "ended", "3", "2016-04-09"),
        ("700006", "ended", "3B", "2016-04-12"),
    ]
    assert kinds(book) == {"leak_opened": 3, "grade_set": 4, "leak_ended": 3, "note": 1}
    assert verify.verify(book.store, against=None).problems == ()
    assert rebuild.check(book.store).differences == ()


def test_a_list_taken_twice_is_taken_once(book: Book, tmp_path: Path) -> None:
    file = put(tmp_path / "list.csv", [FINE, EARLY, UNRANKED])
    taken(book, file, columns=COLUMNS + '[repair]\nlasting = "permanent"\noutcome = "tight"\n')
    before = everything(book)
    again = taken(book, file, columns=COLUMNS + '[repair]\nlasting = "permanent"\noutcome = "tight"\n')
    assert (counts(again), dict(again.raised), everything(book)) == ((3, 0, 3, 0), {}, before)


def test_looking_tells_the_same_and_writes_nothing(book: Book, tmp_path: Path) -> None:
    moved = FINE.replace("4/11/16", "5/11/16")
    also = "700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,3,2A,4/11/16,seen again"
    file = put(
        tmp_path / "list.csv",
        [FINE, UNREAD, EARLY, FINE, moved, UNKEPT, UNRANKED, EARLY, COMING, also, also + "!" * 4000, also],
    )
    before = everything(book)
    looked = taken(book, file, only_look=True)
    assert everything(book) == before
    really = taken(book, file)
    assert looked == really
    assert counts(really) == (12, 4, 3, 5)
    assert taken(book, file, only_look=True) == replace(
        really, taken=0, already_here=7, raised=looked.raised.__class__()
    )


def test_a_row_that_cannot_be_recorded_takes_no_other_with_it(book: Book, tmp_path: Path) -> None:
    tally = taken(book, put(tmp_path / "list.csv", [FINE, UNREAD, UNKEPT, COMING, EARLY]))
    assert counts(tally) == (5, 2, 0, 3)
    assert refusals(tally) == [
        (3, "Repaired", "day_unreadable"),
        (4, "Where", "too_long"),
        (5, "Repaired", "in_the_future"),
        (5, "Repaired", "in_the_future"),
    ]
    assert [number for number, *_ in leaks(book)] == ["700001", "700002"]
    with book.store.reading() as tx:
        assert tx.connection.execute(select(METADATA.tables["unfinished"])).all() == []


def test_a_byte_that_is_no_text_sends_its_row_back(book: Book, tmp_path: Path) -> None:
    file = put(tmp_path / "list.csv", [FINE, EARLY.replace("MILL", "M\xfcHL")], encoding="windows-1252")
    tally = taken(book, file)
    assert (counts(tally), refusals(tally)) == ((2, 1, 0, 1), [(3, "Where", "control_characters")])
    read = taken(book, file, columns=f'encoding = "windows-1252"\n{COLUMNS}')
    assert counts(read) == (2, 1, 1, 0)


def test_a_repeated_row_is_in_the_book_already(book: Book, tmp_path: Path) -> None:
    tally = taken(book, put(tmp_path / "list.csv", [FINE, FINE, EARLY, FINE]))
    assert counts(tally) == (4, 2, 2, 0)


def test_the_next_list_adds_what_is_new_to_the_leaks_that_are_there(book: Book, tmp_path: Path) -> None:
    leaks_of = COLUMNS.replace('"repairs"', '"leaks"').replace('repaired = "Repaired"\n', "")
    leaks_of = leaks_of.replace('[[grade_on]]\ncolumn = "Grade"\non_column = "Repaired"\n', "")
    opened = put(tmp_path / "open.csv", ["700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,3,,,"])
    assert counts(taken(book, opened, columns=leaks_of)) == (1, 1, 0, 0)
    assert leaks(book) == [("700001", "open", "3", None)]
    assert counts(taken(book, put(tmp_path / "list.csv", [FINE]))) == (1, 1, 0, 0)
    assert leaks(book) == [("700001", "ended", "3", "2016-04-11")]
    assert kinds(book) == {"leak_opened": 1, "grade_set": 2, "leak_ended": 1}


def test_a_list_without_numbers_counts_equal_rows_and_finds_each_again(book: Book, tmp_path: Path) -> None:
    columns = COLUMNS.replace('identity = "number"', 'identity = ["Where", "Town", "Repaired"]')
    columns = columns.replace('number = "Leak No"\n', "")
    file = put(tmp_path / "list.csv", [FINE, FINE.replace("700001", "2"), EARLY])
    tally = taken(book, file, columns=columns)
    assert (counts(tally), tally.columns_left) == ((3, 3, 0, 0), ("Leak No",))
    assert [number for number, *_ in leaks(book)] == ["ES-16-0001", "ES-16-0002", "ES-16-0003"]
    more = put(tmp_path / "more.csv", [FINE, FINE, FINE])
    assert counts(taken(book, more, columns=columns)) == (3, 1, 2, 0)


def test_a_number_that_another_area_bears_is_kept_beside_the_one_given(book: Book, tmp_path: Path) -> None:
    file = put(tmp_path / "list.csv", [FINE])
    taken(book, file)
    assert counts(taken(book, file, area=book.other_area)) == (1, 1, 0, 0)
    assert counts(taken(book, file, area=book.other_area)) == (1, 0, 1, 0)
    assert [number for number, *_ in leaks(book)] == ["700001", "HF-16-0001"]


def test_many_rows_go_in_in_several_calls(book: Book, tmp_path: Path) -> None:
    heard: list[int] = []
    file = put(tmp_path / "list.csv", list(rows(180)))
    tally = taken(book, file, tell=lambda now: heard.append(now.rows))
    assert counts(tally) == (180, 180, 0, 0)
    assert len(heard) == 3
    assert heard == sorted(heard)
    with book.store.reading() as tx:
        streets = tx.connection.execute(select(OF_KIND["leak_opened"].c.street).distinct()).scalars()
        assert set(streets) == {"QUARRY LN", "TANNERS ROW", "MILL LN", "SALTPAN RD", "HARROW ST", "CHANDLERS WAY"}


def test_refusals_beyond_those_kept_are_counted(sqlite_book: Book, tmp_path: Path) -> None:
    tally = taken(sqlite_book, put(tmp_path / "list.csv", [UNREAD] * 1003))
    assert (tally.refused, len(tally.complaints), tally.left_out) == (1003, 1000, 3)
    facts = {"order": "month day year"}
    assert tally.complaints[-1] == Refusal(
        line=1001, column="Repaired", cell="in spring", code="day_unreadable", facts=facts
    )
