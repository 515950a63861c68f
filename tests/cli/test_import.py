"""`repairlog import`: what it prints, and what it ends with."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select

from repairlog.intake.lists import Refusal
from repairlog.records.store import Store
from repairlog.records.tables.facts import ENTRY
from repairlog.words.lists import file_sentence, line_of
from tests.cli.conftest import Say
from tests.makers import book as m
from tests.makers.command import NEW_BOOK, Answer
from tests.makers.old_lists import COLUMNS, put, rows

FINE = "700001,14 QUARRY LN,,HARROWSEDGE,4/10/16,Not Found Yet,2A,4/11/16,"
EARLY = "700002,3 MILL LN,,HARROWSEDGE,4/10/16,3,1,4/9/16,"
UNREAD = "700003,5 MILL LN,,HARROWSEDGE,4/10/16,3,1,in spring,"


class Desk:
    """A book, a list and its columns file, and the words to take it in."""

    def __init__(self, say: Say, url: str, folder: Path) -> None:
        self.say, self.url, self.file, self.columns = say, url, folder / "list.csv", folder / "columns.toml"
        self.columns.write_text(COLUMNS)
        put(self.file, [FINE, UNREAD, EARLY])

    def take(self, *words: str, kind: str = "repairs", area: str = "Eastmarsh") -> Answer:
        asked = ["import", str(self.file), "--kind", kind, "--area", area, "--columns", str(self.columns)]
        return self.say(*asked, "--database", self.url, *words)

    def told(self, *words: str) -> dict[str, Any]:
        told: dict[str, Any] = json.loads(self.take("--json", *words).out)
        return told


@pytest.fixture
def desk(say: Say, made: str, tmp_path: Path) -> Desk:
    """On either database."""
    return Desk(say, made, tmp_path)


@pytest.fixture
def sqlite_desk(say: Say, sqlite_url: str, tmp_path: Path) -> Desk:
    """On SQLite alone."""
    assert say("init", *NEW_BOOK, "--database", sqlite_url).code == 0
    return Desk(say, sqlite_url, tmp_path)


def test_a_list_is_looked_at_then_taken_in_then_there_already(desk: Desk) -> None:
    looked = desk.take("--check")
    assert looked == Answer(
        1,
        "3 rows read, nothing written: 2 would be taken in, 0 are in the book already, 1 would be sent back.\n"
        "1 raised: repaired before it was reported (repaired_before_reported)\n"
        "line 3, “Repaired”: “in spring”. No day can be read in it; the columns file says that days are written month,"
        " day, year. Write the day so, or give the file's own order under dates.\n",
        "",
    )
    assert desk.take().out.startswith("3 rows read: 2 taken in, 0 in the book already, 1 sent back.\n1 raised")
    assert desk.take().out.startswith("3 rows read: 0 taken in, 2 in the book already, 1 sent back.\nline 3")
    for words in (("journal", "verify"), ("rebuild", "--check")):
        assert desk.say(*words, "--database", desk.url).code == 0


def test_as_json_it_says_the_same_and_each_complaint_with_its_cell(sqlite_desk: Desk) -> None:
    assert sqlite_desk.told() == {
        "rows": 3,
        "taken": 2,
        "already_here": 0,
        "refused": 1,
        "raised": {"repaired_before_reported": 1},
        "columns_left": [],
        "complaints": [
            {
                "line": 3,
                "column": "Repaired",
                "cell": "in spring",
                "code": "day_unreadable",
                "message": "No day can be read in it; the columns file says that days are written month, day, year.",
                "hint": "Write the day so, or give the file's own order under dates.",
            }
        ],
        "complaints_left_out": 0,
    }


def test_a_list_without_a_fault_ends_with_nothing_wrong_and_names_the_columns_left(sqlite_desk: Desk) -> None:
    put(
        sqlite_desk.file,
        [FINE + ",x"],
        header="Leak No,Where,Near,Town,Reported,Class in May,Grade,Repaired,Remark,State",
    )
    assert sqlite_desk.take() == Answer(
        0,
        "1 row read: 1 taken in, 0 in the book already, 0 sent back.\n"
        "Not taken, since the columns file does not name them: State.\n",
        "",
    )


def test_the_area_is_known_by_its_code_and_by_its_name(sqlite_desk: Desk) -> None:
    assert (sqlite_desk.take("--check", area="es").code, sqlite_desk.take("--check", area="EASTMARSH").code) == (1, 1)


def test_a_long_list_says_how_far_it_is_on_the_side_and_prints_no_more_than_is_read(sqlite_desk: Desk) -> None:
    put(sqlite_desk.file, [UNREAD] * 5001)
    answer = sqlite_desk.take()
    assert answer.err == "5001 rows read, 0 taken in …\n"
    lines = answer.out.splitlines()
    assert (len(lines), lines[-1]) == (102, "And 4901 more; --json says more of them.")
    told = sqlite_desk.told()
    assert (told["refused"], len(told["complaints"]), told["complaints_left_out"]) == (5001, 1000, 4001)


def asked_wrongly(answer: Answer, *said: str) -> None:
    assert (answer.code, answer.out) == (2, "")
    assert [part for part in said if part not in answer.err] == []


def test_an_unknown_area_is_told_with_those_that_there_are(sqlite_desk: Desk) -> None:
    answer = sqlite_desk.take(area="Eastmarch")
    asked_wrongly(answer, "no area “Eastmarch”", "Eastmarsh (ES)", "Perhaps “Eastmarsh” is meant.")


def test_who_takes_it_in_must_be_on_the_books(sqlite_desk: Desk) -> None:
    asked_wrongly(sqlite_desk.take("--by", "R. Toland"), "“R. Toland”", "Perhaps “R. Tolland” is meant.")
    assert sqlite_desk.take("--by", "r. tolland").code == 1


def test_an_administrator_takes_it_in_unless_another_is_named(
    say: Say, sqlite_url: str, sqlite_store: Store, tmp_path: Path
) -> None:
    book, desk = m.opened(sqlite_store), Desk(say, sqlite_url, tmp_path)  # others come before the administrator by name
    sent_by = select(ENTRY.c.sent_by).where(ENTRY.c.sure == "import").distinct()
    for row, words, by in ((FINE, (), book.everyone), (EARLY, ("--by", "D. Okoro"), book.supervisor)):
        put(desk.file, [row])
        assert desk.take(*words).code == 0
        with sqlite_store.reading() as tx:
            assert by.person in set(tx.connection.execute(sent_by).scalars())
    asked_wrongly(desk.take("--by", "M. Aldous"), "nobody of those may take a list in here")


def test_every_column_that_the_list_lacks_is_told_with_those_it_has(sqlite_desk: Desk) -> None:
    sqlite_desk.columns.write_text(
        COLUMNS.replace('"Leak No"', '"Leek No"').replace('town = "Town"', 'town = "Village"')
    )
    answer = sqlite_desk.take()
    asked_wrongly(
        answer,
        f"{sqlite_desk.columns}: columns.number: The list has no column “Leek No”. It has: Leak No, Where,",
        "Perhaps “Leak No” is meant.",
        "columns.town: The list has no column “Village”.",
    )


def test_a_columns_file_that_is_wrong_is_told_key_by_key(sqlite_desk: Desk) -> None:
    sqlite_desk.columns.write_text(COLUMNS.replace("listed_on", "listedon").replace("month day year", "month first"))
    asked_wrongly(
        sqlite_desk.take(),
        "listedon: There is no such key here;",
        "Perhaps “listed_on” is meant.",
        "dates.order: “month first” is none of: month day year, day month year, year month day.",
        "listed_on: It is missing.",
    )


def test_the_kind_that_was_asked_and_that_of_the_columns_file_are_one(sqlite_desk: Desk) -> None:
    asked_wrongly(sqlite_desk.take(kind="leaks"), "kind: It says “repairs”, and --kind says “leaks”.")


def test_a_file_that_is_missing_or_is_no_list_says_so(sqlite_desk: Desk, tmp_path: Path) -> None:
    sqlite_desk.file.write_bytes(b"PK\x03\x04")
    asked_wrongly(sqlite_desk.take(), f"{sqlite_desk.file}: It is a spreadsheet's own file.")
    sqlite_desk.file.write_bytes(b"")
    asked_wrongly(sqlite_desk.take(), "There is no line with the names of columns in it.")
    sqlite_desk.file.unlink()
    asked_wrongly(sqlite_desk.take(), "list.csv' does not exist")


def test_what_is_in_the_book_when_a_list_breaks_off_is_said(sqlite_desk: Desk) -> None:
    text = "\n".join(["Leak No,Where,Near,Town,Reported,Class in May,Grade,Repaired,Remark", *rows(400), ""])
    sqlite_desk.file.write_bytes(text.encode("utf-16") + b"\x00")
    sqlite_desk.columns.write_text(f'encoding = "utf-16"\n{COLUMNS}')
    answer = sqlite_desk.take()
    asked_wrongly(
        answer, "rows of it are in the book and stay there; the list can be taken in again.", "is not in the encoding"
    )


def test_a_row_is_told_on_one_line_whatever_stands_in_it() -> None:
    told = line_of(Refusal(line=7, column="Where", cell="x\n\udcfc" + "y" * 100, code="control_characters"))
    assert told == (
        f"line 7, “Where”: “x ?{'y' * 77}…”. The text holds characters that cannot be seen or kept."
        " Type it anew, or paste it as plain text."
    )
    assert line_of(Refusal(line=7, code="changed_meanwhile")).startswith("line 7. Somebody else wrote")


def test_a_header_that_cannot_be_read_says_why() -> None:
    assert (
        file_sentence("header_unreadable", {"said": "x"}) == "The line with the names of its columns cannot be read: x."
    )
