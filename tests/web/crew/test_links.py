"""A link from one thing to another: found by a number or an address, made on a page, shown on both, taken back."""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest
from flask.testing import FlaskClient

from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site
from tests.web.everyone.read import link, text_of


@dataclass(frozen=True)
class There:
    """What stands in the book, by id; `pages`: where each is told of; `number`: of the leak."""

    ids: dict[str, str]
    pages: dict[str, str]
    number: str


@pytest.fixture
def there(book: m.Book, leak: str) -> There:
    other, call = m.leak(book, street="Weir Street", house_number="3"), c.call(book, street="Mill Lane")
    dig, place = d.dig(book, [other["id"]], ticket="T-77"), d.place(book, called="main in Tannery Row", street="")
    number = book.say(other, call, dig, place)[0].number
    ids = {"leak": leak, "other": other["id"], "call": call["id"], "dig": dig["id"], "place": place["id"]}
    pages = {name: f"/leaks/{ids[name]}" for name in ("leak", "other")}
    pages |= {"call": f"/calls/{call['id']}", "dig": f"/leaks/{other['id']}", "place": f"/places/{place['id']}"}
    return There(ids, pages, str(number))


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("weir", ["ES-26-0002", "Dig of 5 Mar 2026, ticket T-77"]),
        ("es-26-0002", ["ES-26-0002", "Dig of 5 Mar 2026, ticket T-77"]),
        ("T 77", ["ES-26-0002", "Dig of 5 Mar 2026, ticket T-77"]),
        ("mill", ["Call"]),
        ("tannery", ["main in Tannery Row"]),
        ("no such", []),
    ],
)
def test_the_other_one_is_found_by_a_number_or_by_words_of_its_address(
    crew: FlaskClient, there: There, typed: str, found: list[str]
) -> None:
    page = crew.get(f"/linked/{there.ids['leak']}", query_string={"text": typed}).text
    offered = re.findall(r'<a href="/linked/[^"]*/[^"]*">(.*?)</a>', page)
    assert [each if each in found else each.split()[0] for each in offered] == found
    assert ("Nothing fits this." in page) == (not found)


@pytest.mark.parametrize(
    ("of", "to", "how", "here", "other"),
    [
        ("leak", "dig", "same_dig", "same dig as Dig of 5 Mar 2026, ticket T-77", "ES-26-0001: same dig as this one"),
        ("leak", "call", "came_back_after", "came back after", "ES-26-0001: came back after this one"),
        ("leak", "place", "waits_on", "waits on main in Tannery Row", "ES-26-0001: waits on this one"),
        ("call", "leak", "same_source_as", "same source as ES-26-0001", "same source as this one"),
        ("dig", "leak", "waits_on", "waits on ES-26-0001", "Dig of 5 Mar 2026, ticket T-77: waits on this one"),
        ("place", "leak", "waits_on", "waits on ES-26-0001", "main in Tannery Row: waits on this one"),
    ],
)
def test_a_link_is_shown_on_both_pages_with_why_and_by_whom_and_gone_once_it_is_void(
    crew: FlaskClient, book: m.Book, there: There, of: str, to: str, how: str, here: str, other: str
) -> None:
    at = f"/linked/{there.ids[of]}/{there.ids[to]}"
    saved = fill_in(crew, at, entry__happened="2026-03-05", entry__how=how, entry__reason="the same trench")
    assert (saved.status_code, saved.location.partition("?")[0]) == (303, there.pages[of])
    assert here in text_of(crew.get(saved.location).text)
    shown = text_of(crew.get(there.pages[to]).text)
    assert other in shown
    assert "the same trench, by M. Aldous, 5 Mar 2026" in shown
    book.say(m.void(saved.location.rpartition("=")[2]))
    assert "Linked to this" not in crew.get(there.pages[to]).text


def test_only_the_ways_that_make_sense_for_the_two_are_offered(crew: FlaskClient, there: There) -> None:
    page = form_page(crew.get(f"/linked/{there.ids['call']}/{there.ids['leak']}"))
    assert page.texts["entry-how"] == "How it hangs together needed Same source as Came back after"


@pytest.mark.parametrize(("of", "to"), [("leak", "leak"), ("place", "call"), ("call", "place")])
def test_what_makes_no_pair_has_no_page(crew: FlaskClient, there: There, of: str, to: str) -> None:
    assert crew.get(f"/linked/{there.ids[of]}/{there.ids[to]}").status_code == 404


def test_each_page_leads_to_where_it_is_linked(crew: FlaskClient, there: There) -> None:
    for name in ("call", "dig", "place"):
        assert f'href="/linked/{there.ids[name]}' in crew.get(there.pages[name]).text
    linking = crew.get(f"/leaks/{there.ids['leak']}/link").text
    assert link(linking, "To a call, a dig, a place, or a leak by its address") == f"/linked/{there.ids['leak']}"
