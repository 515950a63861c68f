"""Instruments on pages: what is due first stands first, on the day that is asked for; and each with all it was used
for."""

from __future__ import annotations

import csv
import io
import re

import pytest
from flask.testing import FlaskClient

from tests.makers import book as m
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.web.everyone.read import link, rows_of

MARKS = re.compile(r'<a href="/instruments/[0-9a-f-]{36}">([^<]+)</a>')


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    """G-1 holds until 7 April, G-2 until 20 March, G-3's certificate says no day, G-4 was out of tolerance, G-5 was
    never calibrated, G-6 is retired."""
    every = [m.instrument(book, mark=f"G-{number}", serial_number=f"S{number}") for number in range(1, 7)]
    one, two, three, four, _five, six = (each["id"] for each in every)
    no_day = m.calibrated(three)
    del no_day["next_due_on"]
    book.say(
        *every,
        m.calibrated(one),
        m.calibrated(two, next_due_on="2026-03-20"),
        no_day,
        m.calibrated(four),
        m.calibrated(four, happened="2026-02-01", result="out_of_tolerance"),
        {"kind": "instrument_retired", "id": m.new_id(), "subject": six, "happened": "2026-03-01"},
        m.checked(one),
    )
    return site(book).client(book.crew)


@pytest.mark.parametrize(
    ("asked", "marks"),
    [
        ("on=2026-03-05", ["G-4", "G-5", "G-2", "G-1", "G-3"]),
        ("on=2026-03-05&standing=out", ["G-4"]),
        ("on=2026-03-05&standing=never", ["G-5"]),
        ("on=2026-03-05&standing=ends_soon", ["G-2"]),
        ("on=2026-03-05&standing=ends_soon&soon=60", ["G-2", "G-1"]),
        ("on=2026-03-20&standing=out", ["G-4"]),
        ("on=2026-03-21&standing=out", ["G-4", "G-2"]),
        ("on=2026-01-31&standing=valid", ["G-2", "G-1", "G-4", "G-3"]),
        ("on=2026-01-06&standing=never", ["G-1", "G-2", "G-3", "G-4", "G-5", "G-6"]),
        ("on=2026-02-28&text=g-6", ["G-6"]),
        ("on=2026-03-01&retired=yes", ["G-6"]),
        ("text=s3", ["G-3"]),
        ("what=pressure", []),
    ],
)
def test_what_is_due_first_stands_first_as_of_the_day_that_is_asked_for(
    crew: FlaskClient, asked: str, marks: list[str]
) -> None:
    assert MARKS.findall(crew.get(f"/instruments?{asked}").text) == marks


def test_the_list_is_taken_away_with_how_each_stands(crew: FlaskClient) -> None:
    file = crew.get("/instruments?on=2026-03-05&as=csv").data.decode("utf-8-sig")
    rows = {row["Mark"]: row for row in csv.DictReader(io.StringIO(file))}
    assert {mark: row["How it stands"] for mark, row in rows.items()} == {
        "G-4": "Out of calibration",
        "G-5": "No calibration on the books",
        "G-2": "Due soon",
        "G-1": "Calibrated",
        "G-3": "Calibrated",
    }
    assert (rows["G-1"]["Last checked on"], rows["G-1"]["Serial number"]) == ("2026-03-03", "S1")


def test_a_page_tells_where_it_was_used_and_what_does_not_hold_up_because_of_it(
    book: m.Book, crew: FlaskClient
) -> None:
    (address,) = re.findall(r'href="(/instruments/[^"]+)">G-5', crew.get("/instruments").text)
    leak = m.leak(book)
    number = book.say(leak, m.visit(leak["id"], instrument_used=address.rpartition("/")[2]))[0].number
    page = crew.get(address).text
    assert (number in page, "no calibration on the books that held then" in page) == (True, True)


def test_a_crew_logs_a_check_at_the_truck_and_it_stands_on_the_page(book: m.Book, crew: FlaskClient) -> None:
    (address,) = re.findall(r'href="(/instruments/[^"]+)">G-2', crew.get("/instruments").text)
    form = crew.get(f"{address}/check").text
    assert "Not in a gas atmosphere" in form
    saved = fill_in(
        crew,
        f"{address}/check",
        entry__happened=["2026-03-05", "06:30"],
        entry__expected="50 %LEL",
        entry__read="31 %LEL",
        entry__cylinder=book.lot,
        entry__result="not_good",
    )
    page = re.sub(r"<[^>]+>", "", crew.get(saved.location).text)
    assert saved.status_code == 303
    assert "last checked 5 Mar 2026, Not good" in page
    assert (crew.get(f"{address}/retired").status_code, "Retire it" in page) == (403, False)


def test_a_supervisor_adds_and_calibrates_one(book: m.Book) -> None:
    supervisor = site(book).client(book.supervisor)
    added = fill_in(
        supervisor,
        "/instruments/new",
        entry__area=book.area,
        entry__mark="PG-1",
        entry__what="pressure gauge",
        entry__happened=["2026-01-05", ""],
    )
    address = added.location.partition("?")[0]
    assert "No calibration on the books" in in_words(supervisor.get(address).text)
    calibrated = fill_in(
        supervisor,
        f"{address}/calibrated",
        entry__happened=["2026-01-06", ""],
        entry__result="adjusted_to",
        entry__next_due_on="2099-12-31",
        entry__by_whom="Weir Lab",
    )
    assert (added.status_code, calibrated.status_code) == (303, 303)
    page = in_words(supervisor.get(address).text)
    assert ("calibrated until 31 Dec 2099" in page, "Weir Lab" in page) == (True, True)


def in_words(page: str) -> str:
    """The page without its marks."""
    return re.sub(r"<[^>]+>", "", page).replace("no calibration", "No calibration")


@pytest.mark.parametrize("kind", ["instrument", "crew"])
def test_two_records_of_an_instrument_or_a_crew_are_made_one_from_the_page_of_the_one_that_is_kept(book, kind):
    kept, other = m.instrument(book), m.instrument(book, mark="G3")
    crews = m.crew(book), m.crew(book, name="Truck four")
    book.say(kept, other, *crews, m.calibrated(other["id"]), m.calibrated(kept["id"], happened="2025-12-01"))
    kept, other = (kept, other) if kind == "instrument" else crews
    officer = site(book).client(book.officer)
    page = f"/{kind}s/{kept['id']}"
    choose = officer.get(link(officer.get(page).text, "The same as another")).text
    way = link(choose, "G3" if kind == "instrument" else "Truck four")
    assert way == f"/books/{kept['id']}/same/{other['id']}"
    said = {"entry__happened": "2026-03-06", "entry__reason": "one label, typed twice"}
    assert fill_in(officer, way, **said).location.partition("?")[0] == page
    told = officer.get(page).text
    assert link(told, "G3" if kind == "instrument" else "Truck four") == f"/{kind}s/{other['id']}"
    if kind == "instrument":
        assert rows_of(told)[:2] == [
            "7 Jan 2026 In tolerance 7 Apr 2026 G3",
            "1 Dec 2025 In tolerance 7 Apr 2026 this one",
        ]
    listed = officer.get(f"/{kind}s").text
    assert f"/{kind}s/{other['id']}" not in listed
