"""What is left unfinished is found again: one's own, and what was refused to others where one oversees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from flask.testing import FlaskClient

from repairlog.access import Actor, Refused
from repairlog.entries.ids import read_id
from repairlog.intake import NotUnderstood, WaitsFor
from repairlog.records.store import Store
from tests.intake.lines import kept, sealed
from tests.makers import book as m
from tests.makers.book import Book
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import send, site


@pytest.fixture
def book(store: Store) -> Book:
    return m.opened(store)


@pytest.fixture
def leak(book: Book) -> str:
    said = m.leak(book)
    book.say(said)
    return str(said["id"])


@pytest.fixture
def crew(book: Book) -> FlaskClient:
    return site(book).client(book.crew)


def wrong_unit(client: FlaskClient, leak: str) -> str:
    """The id of a source that was left unfinished for its unit."""
    typed = {"source__component": "tee", "source__pressure": "45 psy", "source__happened": ["2026-03-03", "09:05"]}
    return form_page(fill_in(client, f"/leaks/{leak}/source", **typed)).boxes["source-id"][0]


def left(book: Book, said: Mapping[str, object], *, by: Actor) -> str:
    """The id of a call that a program sent and that could not be recorded."""
    with pytest.raises((NotUnderstood, Refused, WaitsFor)):
        book.say(dict(said), by=by)
    return str(said["id"])


def test_nothing_left_unfinished_is_said_so(crew: FlaskClient) -> None:
    assert "You left nothing unfinished." in crew.get("/unfinished").text
    assert "Unfinished (" not in crew.get("/unfinished").text


def test_what_was_left_is_listed_with_why_and_counted_on_every_page(crew: FlaskClient, leak: str) -> None:
    id = wrong_unit(crew, leak)
    text = crew.get("/unfinished").text
    assert "A source of the leak is found" in text
    assert "Something in it could not be read." in text
    assert f'href="/unfinished/{id}"' in text
    assert "Unfinished (1)" in crew.get("/leaks").text


def test_what_was_left_says_on_which_leak_and_an_opening_where_as_it_was_typed(
    crew: FlaskClient, leak: str, book: Book
) -> None:
    wrong_unit(crew, leak)
    assert "ES-26-0001, 14 Quarry Lane, Harrowsedge</td>" in crew.get("/unfinished").text
    fill_in(crew, "/leaks/new", leak__house_number="3", leak__street="Weir Street", leak__area=book.area)
    assert "3 Weir Street</td>" in crew.get("/unfinished").text


def test_what_was_left_about_a_leak_out_of_sight_says_nothing_of_it(crew: FlaskClient, book: Book) -> None:
    elsewhere = m.leak(book, area=book.other_area, street="Saltern Row")
    book.say(elsewhere)
    left(book, m.note(elsewhere["id"]), by=book.crew)
    text = crew.get("/unfinished").text
    assert ("A note is added" in text, "Saltern Row" in text, "HF-26" in text) == (True, False, False)


def test_a_page_that_leaves_something_counts_it_at_once(crew: FlaskClient, leak: str) -> None:
    answer = fill_in(crew, f"/leaks/{leak}/note")
    assert (answer.status_code, "Unfinished (1)" in answer.text) == (422, True)


def test_it_opens_in_its_form_as_typed_with_what_is_wrong(crew: FlaskClient, leak: str, book: Book) -> None:
    id = wrong_unit(crew, leak)
    answer = crew.get(f"/unfinished/{id}")
    assert (answer.status_code, answer.location) == (302, f"/leaks/{leak}/source?unfinished={id}")
    page = form_page(crew.get(answer.location))
    boxes = {name: page.boxes[f"source-{name}"] for name in ("id", "component", "pressure", "happened")}
    assert boxes == {"id": [id], "component": ["tee"], "pressure": ["45 psy"], "happened": ["2026-03-03", "09:05"]}
    assert page.said("source-pressure").startswith("The unit “psy” is not known here.")
    saved = press_on(crew, f"/leaks/{leak}/source", page, source__pressure="45 psi")
    assert (saved.status_code, sealed(book.store, id)["said"]["pressure"], kept(book.store)) == (303, "45 psi", {})


def test_every_part_of_a_page_comes_back(book: Book) -> None:
    officer = site(book).client(book.officer)
    typed = {"leak__street": "Quarry Lane", "leak-outside_numbers-0-number": "77", "grade__reason": "smelt it"}
    page = form_page(fill_in(officer, "/leaks/new", **typed))
    again = form_page(officer.get(f"/leaks/new?unfinished={page.boxes['leak-id'][0]}"))
    assert again.boxes.pop("unfinished") == [page.boxes["leak-id"][0]], "whoever takes it over says which it was"
    assert again.boxes == page.boxes
    assert again.said("grade-grade").startswith("This is needed")
    assert again.said("leak-outside_numbers-0-what").startswith("This is needed")


def test_throwing_away_asks_once_and_takes_only_that(crew: FlaskClient, leak: str, book: Book) -> None:
    id, other = wrong_unit(crew, leak), wrong_unit(crew, leak)
    assert "Throw this away?" in crew.get(f"/unfinished/{id}/throw-away").text
    assert set(kept(book.store)) == {id, other}
    answer = send(crew, f"/unfinished/{id}/throw-away", {})
    assert (answer.status_code, answer.location, set(kept(book.store))) == (303, "/unfinished?done=away", {other})
    assert crew.get(f"/unfinished/{id}").status_code == 404


def test_another_s_is_neither_shown_nor_opened_nor_thrown_away(crew: FlaskClient, leak: str, book: Book) -> None:
    id = wrong_unit(crew, leak)
    supervisor = site(book).client(book.supervisor)
    assert id not in supervisor.get("/unfinished").text
    assert [
        supervisor.get(each).status_code
        for each in (f"/unfinished/{id}", f"/unfinished/{id}/throw-away", f"/leaks/{leak}/source?unfinished={id}")
    ] == [404, 404, 404]


@pytest.mark.parametrize("id", ["", "nothing", "019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a"])
def test_what_is_no_unfinished_one_is_not_found(crew: FlaskClient, leak: str, id: str) -> None:
    assert crew.get(f"/leaks/{leak}/source?unfinished={id}").status_code == 404


def test_a_call_of_a_program_is_shown_as_text_with_words_for_its_codes(crew: FlaskClient, book: Book) -> None:
    said = m.leak(
        book, happened="in May", outside_numbers=[{"key": "n1", "what": "call", "number": "77"}], colour="red"
    )
    text = crew.get(f"/unfinished/{left(book, said, by=book.crew)}").text
    shown = [
        "<dt>How it was detected</dt><dd>Call about an odor</dd>",
        "<dd>in May</dd>",
        "<dt>colour</dt><dd>red</dd>",
    ]
    assert [each for each in shown if each not in text] == []
    assert "<dt>Numbers that others know it by, row 1: Number</dt><dd>77</dd>" in text
    assert "<li>colour: There is no field “colour” here." in text


def test_a_call_of_a_program_says_which_field_could_not_be_read(crew: FlaskClient, book: Book) -> None:
    text = crew.get(f"/unfinished/{left(book, m.leak(book, happened='in May'), by=book.crew)}").text
    assert "<li>When it happened: No day or time can be read in “in May”." in text


@pytest.mark.parametrize("raw", [{}, {"kind": 7}, {"kind": "no such"}, {"kind": "visit", "places": "x", "did": [1]}])
def test_a_call_that_nobody_could_read_is_still_shown(crew: FlaskClient, book: Book, raw: dict[str, object]) -> None:
    id = left(book, raw | {"id": m.new_id()}, by=book.crew)
    assert (crew.get("/unfinished").status_code, crew.get(f"/unfinished/{id}").status_code) == (200, 200)


def refused(book: Book, leak: str) -> str:
    """The id of a review that a crew sent, which only those who oversee may."""
    repair = m.attempt(leak)
    book.say(repair)
    return left(book, m.review(leak, repair["id"]), by=book.crew)


def test_what_was_refused_is_shown_to_those_who_oversee_the_area(crew: FlaskClient, leak: str, book: Book) -> None:
    id = refused(book, leak)
    people = {
        "crew": crew,
        "supervisor": site(book).client(book.supervisor),
        "officer": site(book).client(book.officer),
    }
    listed = {role: id in client.get("/unfinished").text for role, client in people.items()}
    assert listed == {"crew": True, "supervisor": True, "officer": True}
    assert "typed by M. Aldous" in people["supervisor"].get("/unfinished").text
    assert "Accepted" in people["supervisor"].get(f"/unfinished/{id}").text
    assert people["supervisor"].get(f"/unfinished/{id}/throw-away").status_code == 403


def test_what_was_refused_is_not_shown_to_the_others_of_the_crew(leak: str, book: Book) -> None:
    mate = m.new_id()
    role = {"key": "r1", "role": "crew", "area": book.area, "from_on": "2025-01-02"}
    book.say({"kind": "person_added", "id": mate, "name": "J. Oake", "happened": "2025-01-02", "roles": [role]})
    client = site(book).client(replace(book.crew, person=read_id(mate)))
    id = refused(book, leak)
    assert (id in client.get("/unfinished").text, client.get(f"/unfinished/{id}").status_code) == (False, 404)


def test_one_s_own_is_listed_once_though_one_oversees_the_area_by_now(leak: str, book: Book) -> None:
    id = refused(book, leak)
    risen = [("roles.r2.role", "supervisor"), ("roles.r2.area", book.area), ("roles.r2.from_on", "2025-01-02")]
    book.say(m.corrected(str(book.crew.person), *risen))
    text = site(book).client(book.crew).get("/unfinished").text
    assert text.count(f'href="/unfinished/{id}"') == 1


def test_what_was_refused_elsewhere_is_shown_to_nobody_who_oversees_here(book: Book) -> None:
    away = m.leak(book, area=book.other_area)
    book.say(away)
    id = left(book, m.note(away["id"]), by=book.crew)
    assert id not in site(book).client(book.supervisor).get("/unfinished").text
    assert id in site(book).client(book.officer).get("/unfinished").text


def test_who_saves_what_was_refused_to_another_signs_it_and_who_did_it_stays(book: Book) -> None:
    away = m.leak(book, area=book.other_area)
    book.say(away)
    crew, officer = site(book).client(book.crew), site(book).client(book.officer)
    note = {"note-id": m.new_id(), "note-happened": "2026-03-04", "note-text": "seen from the road"}
    token = form_page(crew.get("/leaks/new")).token
    crew.post(f"/leaks/{away['id']}/note", data={"csrf_token": token, **note})
    assert "nothing unfinished" not in crew.get("/unfinished").text
    assert "seen from the road" in crew.get(f"/unfinished/{note['note-id']}").text
    opened = officer.get(officer.get(f"/unfinished/{note['note-id']}").location)
    assert "The roles of whoever sent it do not let them enter it here." in opened.text
    assert (str(book.crew.person), "M. Aldous") in form_page(opened).offers["note-did-0-person"]
    assert press_on(officer, f"/leaks/{away['id']}/note", form_page(opened)).status_code == 303
    by = sealed(book.store, note["note-id"])["by"]
    assert (by["did"], by["sent"]) == (
        [{"key": "d1", "person": str(book.crew.person)}],
        str(book.officer.person),
    )
    assert kept(book.store) == {}
