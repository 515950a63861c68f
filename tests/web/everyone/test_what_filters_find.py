"""What a filter's text means, on the lists of leaks, calls and records alike: a number, a number that others know it
by, words of an address; nothing, the wrong and the huge break nothing."""

from __future__ import annotations

import re

import pytest

from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import site
from tests.web.everyone.read import text_of

HUGE = "quarry " * 2_000


@pytest.fixture(scope="module")
def asks(sqlite_template, tmp_path_factory):
    """Asks a page of a book with two leaks and two calls; gives the numbers that its list shows."""
    file = tmp_path_factory.mktemp("found") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    book = m.opened(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS))
    leak, call = m.leak(book), c.call(book)
    book.say(leak, m.leak(book, street="Mill Lane"), call, c.call(book, street="Mill Lane"))
    book.say(d.number(leak["id"], number="WO-7 / 31"), d.number(call["id"], number="WO-7 / 32"))
    book.say(m.note(leak["id"], text="a dog in the yard"))
    officer = site(book).client(book.officer)

    def asked(at, **said):
        answer = officer.get(at, query_string=said)
        assert answer.status_code == 200
        table = answer.text.partition("<tbody>")[2]
        return re.findall(r"ES-C?26-\d{4}", text_of(table))

    yield asked
    book.store.close()


@pytest.mark.parametrize("at", ["/leaks", "/records"])
@pytest.mark.parametrize(
    ("said", "found"),
    [
        ({"number": "ES-26-0001"}, ["ES-26-0001"]),
        ({"number": "es-26-0002"}, ["ES-26-0002"]),
        ({"number": "wo-7/31"}, ["ES-26-0001"]),
        ({"number": "WO 7 31"}, ["ES-26-0001"]),
        ({"number": "WO-7"}, []),
        ({"number": "7"}, []),
        ({"number": "%"}, []),
        ({"number": "   "}, ["ES-26-0002", "ES-26-0001"]),
        ({"number": HUGE}, []),
        ({"street": "lane MILL"}, ["ES-26-0002"]),
        ({"street": "harrowsedge"}, ["ES-26-0002", "ES-26-0001"]),
        ({"street": "dog"}, []),
        ({"street": "_"}, []),
        ({"street": HUGE}, ["ES-26-0001"]),
        ({"street": "lane", "number": "WO-7 / 31"}, ["ES-26-0001"]),
    ],
)
def test_the_text_of_a_list_of_leaks_means_a_number_or_words_of_an_address(asks, at, said, found):
    assert asks(at, **said) == found


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ({"number": "ES-C26-0001"}, ["ES-C26-0001"]),
        ({"number": "wo-7/32"}, ["ES-C26-0001"]),
        ({"number": "WO-7 / 31"}, []),
        ({"number": "%"}, []),
        ({"number": HUGE}, []),
        ({"street": "mill lane"}, ["ES-C26-0002"]),
        ({"street": "harrow"}, ["ES-C26-0002", "ES-C26-0001"]),
        ({"street": "_"}, []),
        ({"street": HUGE}, ["ES-C26-0001"]),
    ],
)
def test_the_text_of_the_list_of_calls_means_the_same(asks, said, found):
    assert asks("/calls", **said) == found


@pytest.mark.parametrize("at", ["/leaks", "/records"])
def test_a_word_of_a_note_alone_finds_nothing_by_number_or_street(asks, at):
    assert asks(at, number="dog") == asks(at, street="dog") == []


def test_a_huge_text_is_looked_for_in_notes_and_places_too(asks):
    year = {"area": "ES", "from": "2026-01-01", "until": "2026-12-31"}
    many = " ".join(f"word{number}" for number in range(3_000))
    assert asks("/records", notes="dog " * 3_000, **year) == ["ES-26-0001"]
    assert asks("/records", notes=many, **year) == asks("/places", text=many) == asks("/leaks", street=many) == []
