"""The crew's pages about a leak: it is opened, gets its sources, its grade, its notes; each stays within who may."""

from __future__ import annotations

from dataclasses import replace

import pytest
from flask.testing import FlaskClient

from repairlog.access import Membership
from repairlog.entries.ids import read_id
from repairlog.records.store import Store
from tests.intake.lines import is_there, kept, sealed, size
from tests.makers import book as m
from tests.makers.book import Book
from tests.makers.form_page import form_page, press_on
from tests.makers.site import send, site

CAUTION = "Not in a gas atmosphere"
PAGES = ("source", "grade", "note")


@pytest.fixture
def book(sqlite_store: Store) -> Book:
    return m.opened(sqlite_store)


@pytest.fixture
def leak(book: Book) -> str:
    said = m.leak(book)
    book.say(said, m.grade(said["id"]))
    return str(said["id"])


@pytest.fixture
def crew(book: Book) -> FlaskClient:
    return site(book).client(book.crew)


def elsewhere(book: Book) -> str:
    """A leak in an area that the crew has nothing to do with."""
    said = m.leak(book, area=book.other_area, street="Ore Cart Way")
    book.say(said)
    return str(said["id"])


@pytest.mark.parametrize("what", PAGES)
def test_the_caution_comes_first_and_then_the_leak(crew: FlaskClient, leak: str, what: str) -> None:
    text = crew.get(f"/leaks/{leak}/{what}").text
    order = [text.index(each) for each in (CAUTION, "grade 2", "14 Quarry Lane", "ES-26-0001", '<form id="entering"')]
    assert order == sorted(order)


def test_the_caution_comes_first_where_a_leak_is_opened(crew: FlaskClient) -> None:
    text = crew.get("/leaks/new").text
    assert 0 < text.index(CAUTION) < text.index('<form id="entering"')


def test_a_grade_of_another_practice_brings_its_own_rank(crew: FlaskClient, leak: str, book: Book) -> None:
    page = form_page(crew.get(f"/leaks/{leak}/grade"))
    day = {"grade__happened": ["2026-03-04", ""]}
    answer = press_on(crew, f"/leaks/{leak}/grade", page, grade__grade="B2", grade__rank="2", **day)
    line = sealed(book.store, page.boxes["grade-id"][0])
    assert (answer.status_code, answer.location) == (303, f"/leaks/{leak}?saved={line['said']['id']}")
    assert (line["said"]["grade"], line["said"]["rank"], line["understood"]["rank"]) == ("B2", 2, 2)


def test_a_note_is_written_on_the_leak(crew: FlaskClient, leak: str, book: Book) -> None:
    page = form_page(crew.get(f"/leaks/{leak}/note"))
    text = "dog in the yard\nring first"
    press_on(crew, f"/leaks/{leak}/note", page, note__text=text, note__happened=["2026-03-04", "16:00"])
    said = sealed(book.store, page.boxes["note-id"][0])["said"]
    assert (said["subject"], said["text"], said["happened"]) == (leak, text, "2026-03-04 16:00")


def test_the_area_is_chosen_beforehand_only_where_there_is_one(crew: FlaskClient, book: Book) -> None:
    own, every = form_page(crew.get("/leaks/new")), form_page(site(book).client(book.officer).get("/leaks/new"))
    assert (own.boxes["leak-area"], own.offers["leak-area"]) == (
        [book.area],
        [("", "Choose"), (book.area, "Eastmarsh")],
    )
    assert (every.boxes["leak-area"], [words for _id, words in every.offers["leak-area"]]) == (
        [""],
        ["Choose", "Eastmarsh", "Highfold"],
    )


def test_a_new_leak_goes_to_its_sheet_and_keeps_a_name_apart(crew: FlaskClient, book: Book) -> None:
    page = form_page(crew.get("/leaks/new"))
    day = {"leak__happened": ["2026-03-03", "07:52"]}
    answer = press_on(crew, "/leaks/new", page, leak__street="Quarry Lane", leak__reporter_name="S. Hale", **day)
    id = page.boxes["leak-id"][0]
    line = sealed(book.store, id)
    assert (answer.status_code, answer.location) == (303, f"/leaks/{id}?saved={id}")
    assert line["said"]["area"] == book.area
    assert "reporter_name" not in line["said"]
    assert list(line["private"]) == ["reporter_name"]


@pytest.mark.parametrize("what", PAGES)
def test_a_leak_outside_the_scope_is_not_there_for_whoever_asks(crew: FlaskClient, book: Book, what: str) -> None:
    answers = [crew.get(f"/leaks/{id}/{what}") for id in (elsewhere(book), m.new_id(), book.lot)]
    assert [each.status_code for each in answers] == [404, 404, 404]
    assert "Ore Cart Way" not in answers[0].text


def test_what_is_sent_without_the_right_is_kept_and_nothing_of_the_leak_is_shown(crew: FlaskClient, book: Book) -> None:
    before, away = size(book.store), elsewhere(book)
    note = {"note-id": m.new_id(), "note-happened": "2026-03-04", "note-text": "seen from the road"}
    token = form_page(crew.get("/leaks/new")).token
    answer = crew.post(f"/leaks/{away}/note", data={"csrf_token": token, **note})
    assert answer.status_code == 403
    assert "Your roles do not let you enter this here: a note is added." in answer.text
    assert "kept as unfinished" in answer.text
    assert "Ore Cart Way" not in answer.text
    assert kept(book.store) == {note["note-id"]: "refused"}
    assert size(book.store) == before + 1  # the leak itself


def test_what_could_not_be_read_on_another_s_leak_is_kept_and_nothing_of_it_is_shown(
    crew: FlaskClient, book: Book
) -> None:
    note = {"note-id": m.new_id(), "note-text": "no day"}
    token = form_page(crew.get("/leaks/new")).token
    answer = crew.post(f"/leaks/{elsewhere(book)}/note", data={"csrf_token": token, **note})
    assert (answer.status_code, "Ore Cart Way" in answer.text) == (422, False)
    assert ('<form id="entering"' in answer.text, 'href="/unfinished"' in answer.text) == (False, True)
    assert kept(book.store) == {note["note-id"]: "not_understood"}


def test_what_hangs_on_a_leak_that_is_not_there_yet_waits_for_it(crew: FlaskClient, book: Book) -> None:
    said = m.leak(book)
    note = {"note-id": m.new_id(), "note-happened": "2026-03-04", "note-text": "before its leak"}
    token = form_page(crew.get("/leaks/new")).token
    answer = crew.post(f"/leaks/{said['id']}/note", data={"csrf_token": token, **note})
    assert answer.status_code == 202
    assert "is saved by itself when that comes in" in answer.text
    book.say(said)
    assert is_there(book.store, note["note-id"])
    assert kept(book.store) == {}


def test_a_form_that_the_person_may_not_post_is_not_drawn(book: Book, leak: str) -> None:
    reader = m.new_id()
    held = [{"key": "r1", "role": "administrator", "from_on": "2025-01-02"}]
    book.say({"kind": "person_added", "id": reader, "name": "T. Vance", "happened": "2025-01-02", "roles": held})
    membership = Membership(role="administrator", area=None, from_on="2025-01-02")
    client = site(book).client(replace(book.officer, person=read_id(reader), memberships=(membership,)))
    answers = {what: client.get(f"/leaks/{leak}/{what}").status_code for what in PAGES}
    assert answers == {"source": 403, "grade": 403, "note": 200}
    assert client.get("/leaks/new").status_code == 403
    assert "for the role" in client.get("/leaks/new").text


def test_nobody_who_is_not_signed_in_sees_a_form(book: Book, leak: str) -> None:
    client = site(book).app.test_client()
    assert [client.get(f"/leaks/{leak}/{what}").status_code for what in PAGES] == [302, 302, 302]


def test_saving_needs_no_script(crew: FlaskClient, leak: str, book: Book) -> None:
    answer = send(crew, f"/leaks/{leak}/note", {"note-id": m.new_id(), "note-happened": "2026-03-04", "note-text": "x"})
    assert answer.status_code == 303


def test_what_is_rarely_known_of_a_source_stands_behind_one_fold_that_opens_where_it_was_typed(
    crew: FlaskClient, leak: str
) -> None:
    closed = crew.get(f"/leaks/{leak}/source").text
    fold, more = closed.index('<details class="fold">'), closed.index("More about the source")
    before, behind = closed[:fold], closed[more : closed.index("Who did it")]
    named = ("happened", "part", "component", "material", "size", "pressure")
    assert [each for each in named if f'name="source-{each}"' not in before] == []
    behind_it = ("installed_year", "coating", "defect", "location")
    assert [each for each in behind_it if f'name="source-{each}"' not in behind] == []
    page = form_page(crew.get(f"/leaks/{leak}/source"))
    again = press_on(crew, f"/leaks/{leak}/source", page, press="check=all", source__coating="coal tar").text
    assert '<details class="fold" open>\n<summary>More about the source' in again
