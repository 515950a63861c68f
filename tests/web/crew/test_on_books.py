"""Anything of the books takes a note, a number that others know it by, and a picture, from its own page."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO

import pytest
from flask.testing import FlaskClient

from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import companies
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.form_page import fill_in, form_page
from tests.makers.program import actors
from tests.makers.site import site
from tests.web.crew.test_attachments import photograph
from tests.web.everyone.read import text_of

DAY = {"entry__happened": ["2026-03-05", ""]}


@pytest.fixture
def everyone(book: m.Book) -> FlaskClient:
    return site(book).client(book.everyone)


def pages(book: m.Book) -> dict[str, tuple[str, str]]:
    """By kind of thing, its id and its page."""
    place, call, crew, meter, shelf = d.place(book), c.call(book), m.crew(book), m.instrument(book), s.shelf(book)
    hired = companies.company()
    book.say(place, call, crew, meter, shelf, hired)
    return {
        "company": (hired["id"], f"/companies/{hired['id']}"),
        "place": (place["id"], f"/places/{place['id']}"),
        "call": (call["id"], f"/calls/{call['id']}"),
        "crew": (crew["id"], f"/crews/{crew['id']}"),
        "instrument": (meter["id"], f"/instruments/{meter['id']}"),
        "shelf": (shelf["id"], f"/stores/shelves/{shelf['id']}"),
        "lot": (book.lot, f"/stores/lots/{book.lot}"),
        "area": (book.area, f"/areas/{book.area}"),
        "person": (str(book.crew.person), f"/people/{book.crew.person}"),
    }


def test_each_takes_a_note_a_number_and_a_picture_and_shows_them(book: m.Book, everyone: FlaskClient) -> None:
    content, found = photograph(), {}
    things = pages(book)
    for kind, (id, page) in things.items():
        at = f"/books/{id}"
        said = [
            fill_in(everyone, f"{at}/note", **DAY, entry__text="the key hangs in the hall"),
            fill_in(everyone, f"{at}/number", **DAY, entry__what="permit", entry__number=f"P-{kind}"),
            attached(everyone, f"{at}/attach", content),
        ]
        shown = everyone.get(page).text
        told = text_of(shown)
        found[kind] = (
            [each.location.partition("?")[0] for each in said],
            [f'href="{at}/{way}"' in shown for way in ("note", "number", "attach")],
            ["the key hangs in the hall" in told, f"P-{kind}" in told],
            f"/files/{sha256(content).hexdigest()}/picture" in shown,
        )
    assert found == {kind: ([page] * 3, [True] * 3, [True] * 2, True) for kind, (_id, page) in things.items()}


def attached(client: FlaskClient, address: str, content: bytes):
    page = form_page(client.get(address))
    data = {box: values[-1] for box, values in page.boxes.items()}
    data |= {"csrf_token": page.token, "save": "all", "file-happened": "2026-03-05", "file-caption": "as found"}
    data["picture"] = (BytesIO(content), "hole.png")
    return client.post(address, data=data, content_type="multipart/form-data")


def test_a_dig_takes_a_note_and_a_number_by_which_it_is_found(book: m.Book, everyone: FlaskClient) -> None:
    leak = m.leak(book)
    dig = d.dig(book, [leak["id"]])
    book.say(leak, dig)
    at = f"/leaks/{leak['id']}/digs/{dig['id']}"
    noted = fill_in(everyone, f"{at}/note", step__happened=["2026-03-05", ""], step__text="shored on two sides")
    numbered = fill_in(
        everyone, f"{at}/number", step__happened=["2026-03-05", ""], step__what="permit", step__number="P-77"
    )
    sheet = text_of(everyone.get(f"/leaks/{leak['id']}").text)
    assert (noted.status_code, numbered.status_code) == (303, 303)
    assert ("shored on two sides" in sheet, "P-77" in sheet) == (True, True)
    listed = [text_of(everyone.get(f"/digs?number={number}").text) for number in ("P-77", "P-78")]
    assert ["T-10418" in each for each in listed] == [True, False]


def test_a_lot_is_found_by_a_number_of_others(book: m.Book, everyone: FlaskClient) -> None:
    book.say(d.number(book.lot, what="claim", number="CL-9"))
    found, not_found = (text_of(everyone.get(f"/stores?number={number}").text) for number in ("cl-9", "cl-8"))
    assert ("No lot fits this" in found, "No lot fits this" in not_found) == (False, True)


def test_a_shelf_shows_what_lies_there_and_how_warm_it_was(book: m.Book, everyone: FlaskClient) -> None:
    shelf, lot = s.shelf(book), s.received(book)
    book.say(shelf, lot, s.moved(lot["id"], shelf=shelf["id"]))
    at = f"/stores/shelves/{shelf['id']}"
    said = fill_in(
        everyone,
        f"{at}/temperature",
        entry__happened=["2026-03-05", "07:00"],
        entry__temperature="64 F",
        entry__lowest="41 F",
    )
    shown = text_of(everyone.get(f"{said.location}").text)
    assert (said.status_code, lot["lot_number"] in shown, "64 F" in shown, "41 F" in shown) == (303, True, True, True)


def test_who_may_not_see_a_thing_says_nothing_of_it(book: m.Book) -> None:
    foreign = site(book).client(actors(book)["foreign"])
    ids = {kind: id for kind, (id, _page) in pages(book).items() if kind not in ("person", "company")}
    answers = {kind: foreign.get(f"/books/{id}/note").status_code for kind, id in ids.items()}
    assert answers == dict.fromkeys(ids, 404)
