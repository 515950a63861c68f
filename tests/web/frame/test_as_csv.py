"""A list taken away as CSV: as RFC 4180 has it, whole, never worked out by a spreadsheet, and in bounded memory."""

from __future__ import annotations

import csv
import io
import re
import tracemalloc

import pytest
from flask import g

from repairlog.access import EVERYTHING
from repairlog.clock import now
from repairlog.web.frame import as_csv, listing
from repairlog.web.frame.asking import Asker
from tests.makers import book as m
from tests.makers.site import site
from tests.web.everyone.read import link, said_beside

HEAD = (
    'Number,Area,Grade,House number,Street,Cross street,Town,"Where, in words",Status,Reported on,'
    "How well that day is known,How it ended,Ended on,Repair attempts,Gaps"
)


@pytest.fixture
def book(sqlite_store):
    return m.opened(sqlite_store)


def rows_read(answer):
    text = answer.get_data().decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def numbers(answer):
    return [row["Number"] for row in rows_read(answer)]


def test_the_file_is_utf_8_with_its_lines_and_cells_as_rfc_4180_has_them(book, officer):
    """Source: RFC 4180, section 2: CRLF after each line, quotes around a cell with a comma, a quote or a line end, a
    quote in it doubled; section 3: the media type and its parameters."""
    odd = m.leak(book, street='Quarry "old" Lane', cross_street="Mill\nLane", town="Harrowsedgé", location="gate, left")
    book.say(odd, m.leak(book, happened="2016-12-31", happened_known="on_or_before", street="", town=""))
    answer = officer.get("/leaks?as=csv")
    assert (
        answer.get_data()
        == (
            "\N{ZERO WIDTH NO-BREAK SPACE}"
            f"{HEAD}\r\n"
            'ES-26-0001,Eastmarsh,,14,"Quarry ""old"" Lane","Mill\nLane",Harrowsedgé,"gate, left",'
            "Open,2026-03-03,,,,0,0\r\n"
            "ES-16-0001,Eastmarsh,,14,,,,,Open,2016-12-31,That day or before,,,0,0\r\n"
        ).encode()
    )
    assert answer.content_type == "text/csv; charset=utf-8; header=present"
    assert answer.content_length == len(answer.get_data())


def test_an_ended_leak_says_how_and_when_in_columns_of_their_own(book, officer):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    book.say(leak, m.grade(leak["id"]), attempt, m.ending(leak["id"], [attempt["id"]]))
    (row,) = rows_read(officer.get("/leaks?as=csv"))
    told = ("Grade", "Status", "How it ended", "Ended on", "Repair attempts", "Gaps")
    assert [row[name] for name in told] == ["2", "Ended", "Repaired", "2026-03-05", "1", "1"]


def test_the_name_of_the_file_tells_list_area_and_day(book, crew, officer):
    asked = {
        "all": (officer, "/leaks?as=csv"),
        "one": (officer, "/leaks?as=csv&area=hf"),
        "own": (crew, "/leaks?as=csv"),
    }
    named = {name: client.get(address).headers["Content-Disposition"] for name, (client, address) in asked.items()}
    (day,) = {re.search(r"\d{4}-\d\d-\d\d", each)[0] for each in named.values()}
    assert {name: each.replace(day, "DAY") for name, each in named.items()} == {
        "all": 'attachment; filename="leaks-all-areas-DAY.csv"',
        "one": 'attachment; filename="leaks-HF-DAY.csv"',
        "own": 'attachment; filename="leaks-ES-DAY.csv"',
    }


def test_a_name_holds_letters_digits_and_hyphens_whatever_an_area_is_called():
    assert as_csv.file_name("leaks", 'E"S/../\r\né', "2026-03-05") == "leaks-E-S-2026-03-05.csv"


def test_no_cell_is_a_formula_to_a_spreadsheet_and_the_text_is_whole(book, officer):
    openpyxl = pytest.importorskip(
        "openpyxl", reason="openpyxl, which takes cells as a spreadsheet does, is not installed"
    )
    typed = [f"{first}cmd|' /C calc'!A1" for first in ("=", "+", "-", "@", "\N{FULLWIDTH EQUALS SIGN}")]
    book.say(*(m.leak(book, location=each) for each in reversed(typed)))
    rows = rows_read(officer.get("/leaks?as=csv"))
    assert [row["Where, in words"] for row in rows] == [f"'{each}" for each in typed]
    sheet = openpyxl.Workbook().active
    for cells in (typed, *(list(row.values()) for row in rows)):
        sheet.append(cells)
    as_typed, *as_given = ({cell.data_type for cell in row} for row in sheet.iter_rows())
    assert ("f" in as_typed, set().union(*as_given) & {"f"}) == (True, set())


@pytest.mark.parametrize(
    ("cell", "there"),
    [
        (-3, "-3"),
        (0, "0"),
        ("", ""),
        ("a=b", "a=b"),
        ("'", "'"),
        ("-3", "'-3"),
        ("\t=1", "'\t=1"),
        ("\r1", "'\r1"),
        ("\n1", "'\n1"),
        ("  @1", "'  @1"),
        ("\N{FULLWIDTH HYPHEN-MINUS}1", "'\N{FULLWIDTH HYPHEN-MINUS}1"),
    ],
)
def test_a_text_that_a_spreadsheet_might_work_out_is_marked_as_text_and_nothing_else_is(cell, there):
    assert as_csv.neutral(cell) == there


def test_the_filter_of_the_address_and_the_scope_hold_and_a_page_s_edge_does_not(book, crew, officer):
    ours, theirs = m.leak(book), m.leak(book, area=book.other_area)
    book.say(ours, theirs, m.leak(book, street="Mill Lane"))
    assert numbers(officer.get("/leaks?as=csv&street=quarry")) == ["HF-26-0001", "ES-26-0001"]
    assert numbers(crew.get("/leaks?as=csv")) == ["ES-26-0002", "ES-26-0001"]
    assert numbers(crew.get("/leaks?as=csv&number=HF")) == []
    assert len(numbers(officer.get(f"/leaks?as=csv&older=2026-03-03.{ours['id']}"))) == 3


def test_the_page_leads_to_the_file_of_what_it_shows(book, officer):
    book.say(m.leak(book), m.leak(book, street="Mill Lane"))
    page = officer.get("/leaks?street=mill&status=&from=soon").text
    address = link(page, "Take these away as CSV")
    assert address == "/leaks?street=mill&as=csv"
    assert numbers(officer.get(address)) == ["ES-26-0002"]


def test_what_cannot_be_read_in_a_filter_gives_no_file_but_the_page_that_says_so(book, officer):
    book.say(m.leak(book))
    answer = officer.get("/leaks?area=ZZ&as=csv")
    assert answer.mimetype == "text/html"
    assert said_beside(answer.text, "area").startswith("There is no area “ZZ” here")


@pytest.mark.parametrize("how_many", [0, 1, 2, 3])
def test_every_row_comes_once_however_they_fall_into_pages(book, officer, monkeypatch, how_many):
    monkeypatch.setattr(listing, "AT_ONCE", 2)
    book.say(*(m.leak(book) for _ in range(how_many)), m.leak(book, area=book.other_area))
    assert numbers(officer.get("/leaks?as=csv&area=ES")) == [f"ES-26-{each:04d}" for each in range(how_many, 0, -1)]


def test_a_list_of_many_rows_takes_no_more_memory_than_a_page_of_it(book):
    """Some 20 MB of rows by a peak of 4: a page of rows, and what of the file is not on disk yet."""
    page = [f"{place:>5}{'x' * 195}" for place in range(as_csv.AT_ONCE)]
    pages = iter([page] * 100)
    open_site = site(book)
    with open_site.app.test_request_context("/"):
        g.asker = Asker(actor=book.officer, name="", at=now(), on="2026-03-05", scope=EVERYTHING)
        tracemalloc.start()
        try:
            answer = as_csv.as_csv(name="rows", areas=[], columns={"Row": str}, after=lambda _last: next(pages, []))
            sent = sum(len(each) for each in answer.response)
            _now, peak = tracemalloc.get_traced_memory()
        finally:
            tracemalloc.stop()
            answer.close()
    assert sent == answer.content_length > 20_000_000
    assert peak < 4_000_000
