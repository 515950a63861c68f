"""What no browser of ours sends, and what a hand types into the address: it is told in words and loses nothing."""

from typing import Any

import pytest

from repairlog.access import Actor
from repairlog.intake import NotUnderstood
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.form_page import form_page, press_on
from tests.makers.site import send, site

PAGES = ("repair", "visit", "end")


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    return m.opened(sqlite_store)


def leak_of(book: m.Book, **fields: Any) -> str:
    opened = m.leak(book, **fields)
    book.say(opened)
    return str(opened["id"])


def left(book: m.Book, who: Actor, *raw: dict[str, Any]) -> str:
    with pytest.raises(NotUnderstood):
        book.say(*raw, by=who)
    return str(raw[0]["id"])


@pytest.mark.parametrize("page", PAGES)
def test_what_was_left_of_another_page_opens_here_as_an_empty_form(book: m.Book, page: str) -> None:
    leak = leak_of(book)
    note = left(book, book.supervisor, m.note(leak, happened="someday"))
    answer = site(book).client(book.supervisor).get(f"/leaks/{leak}/{page}?unfinished={note}")
    assert (answer.status_code, form_page(answer).token != "") == (200, True)


@pytest.mark.parametrize(
    ("page", "raw"),
    [
        ("repair", {"kind": "repair_attempted", "materials": ["x", 7, {"key": "m1", "named": 8}], "people": "nobody"}),
        ("visit", {"kind": "visit", "places": [[]], "readings": {"key": "r1"}, "purpose": 5}),
        ("end", {"kind": "leak_ended", "attempts": [None], "joined_to": 12}),
    ],
)
def test_what_a_program_left_opens_though_it_is_built_like_no_form_of_ours(
    book: m.Book, page: str, raw: dict[str, Any]
) -> None:
    leak = leak_of(book)
    id = left(book, book.supervisor, {"id": m.new_id(), "leak": leak, **raw})
    assert site(book).client(book.supervisor).get(f"/leaks/{leak}/{page}?unfinished={id}").status_code == 200


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("button", ["save", "check", "add"])
def test_what_is_sent_about_a_leak_that_is_not_in_sight_shows_nothing_of_it(
    book: m.Book, page: str, button: str
) -> None:
    here, elsewhere = leak_of(book), leak_of(book, area=book.other_area, street="Ore Cart Way")
    crew = site(book).client(book.supervisor)
    token = form_page(crew.get(f"/leaks/{here}/{page}")).token
    answer = crew.post(f"/leaks/{elsewhere}/{page}", data={"csrf_token": token, button: "all"})
    assert answer.status_code < 500
    assert "Ore Cart Way" not in answer.text


def test_more_places_than_a_visit_takes_and_two_of_one_key_are_told(book: m.Book) -> None:
    leak = leak_of(book)
    book.say(m.visit(leak))
    crew = site(book).client(book.crew)
    places = {f"visit-places-{place}-key": "p1" for place in range(450)}
    places |= {f"visit-places-{place}-label": f"place {place}" for place in range(450)}
    answer = send(crew, f"/leaks/{leak}/visit", places | {"visit-id": m.new_id(), "save": "all"})
    assert answer.status_code == 422
    assert "200 is the most of one entry" in answer.text
    (kept,) = of_person(book.store, book.crew.person)
    assert len(kept.raw[0]["places"]) >= 400


def test_two_further_readings_of_one_place_and_one_of_none_stay_as_sent(book: m.Book) -> None:
    leak = leak_of(book)
    crew = site(book).client(book.crew)
    at = f"/leaks/{leak}/visit"
    page = form_page(crew.get(f"{at}?purpose=watch_reading"))
    for _ in range(3):
        page = form_page(press_on(crew, at, page, press="add=visit-readings"))
    values = {f"visit__readings__{place}__value": f"{place} %LEL" for place in range(4)}
    where = {"visit__readings__1__place": "p1", "visit__readings__2__place": "p1"}
    page = form_page(press_on(crew, at, page, press="check=all", visit__places__0__kind="surface", **values, **where))
    assert [page.boxes[f"visit-readings-{place}-value"] for place in range(4)] == [[f"{n} %LEL"] for n in range(4)]
    assert [page.boxes[f"visit-readings-{place}-place"] for place in range(4)] == [["p1"], ["p1"], ["p1"], [""]]
