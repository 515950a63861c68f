"""Whatever somebody typed, no list that is taken away holds a cell that a spreadsheet would work out, and each file is
as RFC 4180 has it. Source: OWASP, CSV Injection; RFC 4180, section 2."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
import time_machine
from flask.testing import FlaskClient

from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.beside.unfinished import Unfinished, keep
from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import companies
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import site
from tests.web.frame.test_every_list import LISTS

NOW = "2026-03-06T15:20:00Z"
SIGNS = ("=", "+", "-", "@", "\t", "\r")
TYPED = '{sign}1+{place}, "cmd"'
NUMBER = re.compile(r"-?\d+")
"""A cell that is a whole number of ours, and no text."""


def said_with(book: m.Book, typed: str) -> list[dict[str, Any]]:
    """One of everything that a list shows, named by what was typed."""
    leak = m.leak(book, house_number="", street=typed, location=typed)
    others = f"{typed} and sons"
    crew, person = m.crew(book, name=typed, company=others), m.person(typed, company=others, staff_number=typed)
    call = c.call(book, house_number="", street=typed)
    dig = d.dig(book, [leak["id"]], ticket=typed, location=typed)
    days = {"until_on": "2999-12-31", "period_from_on": "2026-01-01", "period_until_on": "2026-12-31"}
    return [
        leak,
        m.grade(leak["id"]),
        m.given(leak["id"], named=typed),
        companies.company(typed, from_on="2030-01-01"),
        theirs := m.person(typed, company=typed),
        m.note(leak["id"]) | {"did": [{"key": "d1", "person": theirs["id"]}]},
        crew,
        person,
        m.role_given(person["id"], "inspector", **days),
        call,
        c.sent(call["id"], happened="2026-03-03 07:40", crew=crew["id"]),
        dig,
        d.place(book, called=typed, house_number="", street=typed),
        m.instrument(book, mark=typed, what=typed, maker=typed, serial_number=typed),
        s.received(book, item=typed, lot_number=typed, maker=typed, shelf=typed),
        s.shelf(book, name=typed),
    ]


@pytest.fixture(scope="module")
def walks(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, FlaskClient]]:
    """Browsers at such a book, of somebody with every right and of a crew with much that is unfinished."""
    file = tmp_path_factory.mktemp("files") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    book = m.opened(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS))
    here = site(book)
    book.say(m.adopted(book.area))
    with time_machine.travel(NOW, tick=False):
        for place, sign in enumerate(SIGNS):
            typed = TYPED.format(sign=sign, place=place)
            said = said_with(book, typed)
            book.say(*said)
            area = {"kind": "area_opened", "id": m.new_id(), "name": typed, "code": f"X{chr(65 + place)}"}
            book.say(area | {"zone": "America/Denver", "happened": "2025-02-03"})
            meter = next(each["id"] for each in said if each["kind"] == "instrument_added")
            book.say(m.moved(meter, area["id"], reason=typed))
            reader = next(m.read_id(each["subject"]) for each in said if each["kind"] == "role_given")
            make_sign_in(book.store, person=reader, name=typed, password="a long night", at=datetime.now(UTC))
            here.client(m.Actor(person=reader, sure="password")).get("/leaks")
            raw = [m.leak(book, street=typed, happened="soon")]
            del raw[0]["house_number"]
            left = {"because": "not_understood", "form": "entries", "raw": raw, "kept_at": m.RECEIVED}
            keep(book.store, Unfinished(id=m.read_id(raw[0]["id"]), person=book.crew.person, **left))
        yield {"everyone": here.client(book.everyone), "crew": here.client(book.crew)}
    book.store.close()


@pytest.mark.parametrize("endpoint", LISTS)
def test_no_cell_of_a_file_is_worked_out_whatever_was_typed_and_its_lines_end_as_rfc_4180_has_it(walks, endpoint):
    address = "/records" if endpoint == "records.page" else LISTS[endpoint][0].partition("?")[0]
    answer = walks["crew" if endpoint == "unfinished.page" else "everyone"].get(f"{address}?as=csv")
    text = answer.get_data().decode("utf-8-sig")
    assert (answer.mimetype, answer.headers["Content-Disposition"].partition(";")[0]) == ("text/csv", "attachment")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    again = io.StringIO(newline="")
    csv.writer(again, lineterminator="\r\n").writerows(rows)
    assert text == again.getvalue()
    assert {len(row) for row in rows} == {len(rows[0])}
    cells = [cell for row in rows for cell in row if cell and not NUMBER.fullmatch(cell)]
    assert [cell for cell in cells if cell[0] in SIGNS or cell.lstrip()[:1] in SIGNS] == []
    assert {sign for sign in "=+-@" if any(cell.startswith(f"'{sign}1+") for cell in cells)} == set("=+-@")
