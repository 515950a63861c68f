"""What a text asks for in the lists of people, crews, instruments, lots, places, digs and what is due: a name, a
number, a number that others know it by, words of an address; a word of a note finds nothing in any of them."""

from __future__ import annotations

import re

import pytest

from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import site
from tests.web.everyone.read import text_of

LISTS = {
    "people": "/people?name=",
    "crews": "/crews?text=",
    "instruments": "/instruments?text=",
    "lots": "/stores?number=",
    "items": "/stores?item=",
    "places": "/places?text=",
    "digs": "/digs?number=",
    "due": "/due?text=",
}
NUMBER = "HR-9 / 04"


@pytest.fixture(scope="module")
def asks(sqlite_template, tmp_path_factory):
    """How many rows a list shows for a text. Of each there are two, of which one has a note and a number of others."""
    file = tmp_path_factory.mktemp("found") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    book = m.opened(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS))
    leaks = [m.leak(book), m.leak(book, street="Mill Lane")]
    people = [m.person("K. Ames"), m.person("Z. Hale")]
    crews = [m.crew(book, name="Truck 4", members=[]), m.crew(book, name="Truck 5", members=[])]
    meters = [m.instrument(book, mark="G-1"), m.instrument(book, mark="G-2")]
    lots = [s.received(book, lot_number="C-30"), s.received(book, lot_number="C-31")]
    places = [d.place(book, outside_numbers=[]), d.place(book, street="Mill Lane", outside_numbers=[])]
    digs = [d.dig(book, [leaks[0]["id"]]), d.dig(book, [leaks[1]["id"]])]
    book.say(m.adopted(book.area), *leaks, *(m.grade(leak["id"]) for leak in leaks), *people, *crews, *meters)
    book.say(*lots, *places, *digs)
    for each in (leaks, people, crews, meters, lots, places, digs):
        book.say(m.note(each[0]["id"], text="a heron on the fence"), d.number(each[0]["id"], number=NUMBER))
    everyone = site(book).client(book.everyone)

    def asked(list, text):
        address, _sign, name = LISTS[list].removesuffix("=").partition("?")
        answer = everyone.get(address, query_string={name: text} if text else {})
        assert answer.status_code == 200
        body = answer.text.rpartition("<tbody>")[2].partition("</tbody>")[0] if "<tbody>" in answer.text else ""
        return [text_of(row) for row in re.findall(r"<tr\b.*?</tr>", body, re.DOTALL)]

    yield asked
    book.store.close()


@pytest.mark.parametrize("list", LISTS)
@pytest.mark.parametrize("word", ["heron", "fence", "a heron on the fence"])
def test_a_word_of_a_note_alone_finds_nothing(asks, list, word):
    assert asks(list, "")
    assert asks(list, word) == []


@pytest.mark.parametrize(
    ("list", "part", "name"),
    [
        ("people", "ames", "K. Ames"),
        ("crews", "TRUCK 4", "Truck 4"),
        ("instruments", "g-1", "G-1"),
        ("lots", "c-30", "C-30"),
    ],
)
def test_a_name_or_a_number_that_others_know_it_by_finds_the_one_that_bears_it(asks, list, part, name):
    for typed in (part, NUMBER, "hr-9/04", "HR 9 04"):
        (row,) = asks(list, typed)
        assert name in row
    assert asks(list, "HR-9") == asks(list, "%") == asks(list, "heron " * 2_000) == []


@pytest.mark.parametrize("list", ["places", "digs", "due"])
def test_a_number_that_others_know_finds_places_digs_and_what_is_due(asks, list):
    found = asks(list, "hr-9/04")
    assert found
    assert not any("Mill Lane" in row or "ES-26-0002" in row for row in found)
    assert asks(list, "HR-9 / 05") == []
