"""After a repair, its test or its review the sheet says what comes next; after what paper told, its picture."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers.site import site
from tests.web.everyone.read import link, text_of


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """The pages ask nothing of the database that their rooms' own tests do not ask on both."""
    return m.opened(sqlite_store)


@pytest.fixture
def supervisor(book: m.Book) -> FlaskClient:
    return site(book).client(book.supervisor)


def next_of(client: FlaskClient, page: str, saved: str) -> dict[str, str]:
    """What the page says comes next after that entry was saved, with its address; empty where it leads nowhere."""
    found = re.search(r'<div class="saved".*?</div>', client.get(f"{page}?saved={saved}").text, flags=re.DOTALL)
    steps = re.findall(r"<p>Next: (.*?)</p>", found[0] if found else "", flags=re.DOTALL)
    return {text_of(step): link(step, text_of(step)) if "href" in step else "" for step in steps}


def test_a_repair_is_led_by_its_test_and_its_review_to_the_leaks_end(book: m.Book, supervisor: FlaskClient) -> None:
    leak, source = m.leak(book), m.source(id := m.new_id())
    leak["id"] = id
    tried = m.attempt(id, source=source["id"], outcome="not_tested")
    at = f"/leaks/{id}"
    found = []
    book.say(leak, m.grade(id), source, tried)
    found.append(next_of(supervisor, at, tried["id"]))
    for entry in (
        m.test_of(id, tried["id"], result="not_tight"),
        m.test_of(id, tried["id"], happened="2026-03-05 10:21"),
        m.review(id, tried["id"]),
        m.ending(id, [tried["id"]]),
    ):
        book.say(entry)
        found.append(next_of(supervisor, at, entry["id"]))
    of = f"{at}/attempts/{tried['id']}"
    assert found == [
        {"log a test of it": f"{of}/test"},
        {"log another repair": f"{at}/repair"},
        {"accept or return it": f"{of}/review"},
        {"end the leak, once your procedures allow it": f"{at}/end"},
        {},
    ]


def test_a_crew_reads_that_a_supervisor_accepts_it(book: m.Book) -> None:
    leak = m.leak(book)
    tried = m.attempt(leak["id"])
    book.say(leak, m.grade(leak["id"]), tried)
    crew = site(book).client(book.crew)
    assert next_of(crew, f"/leaks/{leak['id']}", tried["id"]) == {"a supervisor accepts it or returns it": ""}


def test_no_end_is_offered_while_a_source_has_no_repair_that_holds(book: m.Book, supervisor: FlaskClient) -> None:
    leak = m.leak(book)
    id = leak["id"]
    source, other = m.source(id), m.source(id)
    tried, temporary = (
        m.attempt(id, source=source["id"]),
        m.attempt(id, source=other["id"], lasting="temporary", happened="2026-03-05 10:10"),
    )
    reviews = [m.review(id, each["id"], happened="2026-03-05 10:22") for each in (tried, temporary)]
    book.say(leak, m.grade(id), source, other, tried, temporary, *reviews)
    assert [next_of(supervisor, f"/leaks/{id}", each["id"]) for each in reviews] == [{}, {}]


def test_the_day_of_the_attempt_is_not_said_twice(book: m.Book, supervisor: FlaskClient) -> None:
    leak = m.leak(book)
    tried = m.attempt(leak["id"])
    test = m.test_of(leak["id"], tried["id"])
    book.say(leak, tried, test)
    shown = text_of(supervisor.get(f"/leaks/{leak['id']}?saved={test['id']}").text)
    assert "Saved: Soap test of attempt 1, 5 Mar 2026, 10:20 Typed by" in shown


def test_what_was_typed_from_paper_asks_for_a_picture_of_the_page_until_one_came(
    book: m.Book, supervisor: FlaskClient
) -> None:
    leak, call, meter = m.leak(book), c.call(book), m.instrument(book)
    keyed = m.note(leak["id"], typed_from="paper")
    typed = m.note(leak["id"])
    of_call, of_meter = (m.note(each["id"], typed_from="paper") for each in (call, meter))
    book.say(leak, m.grade(leak["id"]), call, meter, keyed, typed, of_call, of_meter)
    at = f"/leaks/{leak['id']}"
    pages = {
        keyed["id"]: at,
        typed["id"]: at,
        of_call["id"]: f"/calls/{call['id']}",
        of_meter["id"]: f"/instruments/{meter['id']}",
    }
    asks = "attach a picture of the page"
    assert [next_of(supervisor, page, id).get(asks, "") for id, page in pages.items()] == [
        f"{at}/attach",
        "",
        f"/books/{call['id']}/attach",
        f"/books/{meter['id']}/attach",
    ]
    book.say(d.attached(leak["id"]))
    assert asks not in next_of(supervisor, at, keyed["id"])
