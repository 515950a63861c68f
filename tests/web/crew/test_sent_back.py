"""What somebody was refused stands before whoever oversees them, who takes it over or sends it back with a word."""

from __future__ import annotations

import pytest

from repairlog.access import Refused
from repairlog.records.tables.beside import UNFINISHED
from repairlog.records.tables.facts import ENTRY
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.copies import rows
from tests.makers.form_page import form_page, press_on
from tests.makers.site import Site, send, site
from tests.web.everyone.read import text_of


@pytest.fixture
def here(book: m.Book) -> Site:
    return site(book)


@pytest.fixture
def ending(book: m.Book, leak: str) -> str:
    """The id of an ending that the crew sent and may not enter."""
    said = m.ending(leak, how="no_reading", happened="2026-03-04")
    with pytest.raises(Refused):
        book.say(said, by=book.crew)
    book.store.engine.dispose()
    return str(said["id"])


def test_it_stands_on_today_and_is_sent_back_with_a_word(here, ending):
    supervisor, crew = (here.client(who) for who in (here.book.supervisor, here.book.crew))
    assert "Refused to others, for want of the right" in supervisor.get("/today").text
    at = f"/unfinished/{ending}/send-back"
    assert at in supervisor.get("/unfinished").text
    assert (ending not in text_of(supervisor.get(at).text), "ES-26-0001" in supervisor.get(at).text) == (True, True)
    for word in ("  ", "x" * 1001):
        assert send(supervisor, at, {"word": word}).status_code == 422
    sent = send(supervisor, at, {"word": "Read again tomorrow, at the same holes"})
    assert "It is sent back" in supervisor.get(sent.location).text
    assert "Refused to others" not in supervisor.get("/today").text
    assert supervisor.get(at).status_code == 404
    own = text_of(crew.get("/unfinished").text)
    assert "Sent back by D. Okoro Read again tomorrow, at the same holes" in own
    assert "Unfinished (1)" in crew.get("/leaks").text


def test_nobody_sends_back_their_own_nor_what_they_do_not_oversee(here, ending):
    book = here.book
    assert here.client(book.crew).get(f"/unfinished/{ending}/send-back").status_code == 403
    moved = {"kind": "call_reviewed", "id": m.new_id(), "call": ending, "happened": "2026-03-04", "outcome": "accepted"}
    assert moved["id"] not in here.client(book.supervisor).get("/unfinished").text


def test_what_was_refused_about_a_call_is_seen_too(here):
    book = here.book
    call = c.call(book)
    book.say(call)
    review = c.reviewed(call["id"])
    with pytest.raises(Refused):
        book.say(review, by=book.crew)
    assert f"/unfinished/{review['id']}/send-back" in here.client(book.supervisor).get("/unfinished").text


def test_what_is_taken_over_is_typed_by_its_author_and_sent_by_who_took_it(here, leak, ending):
    book = here.book
    supervisor = here.client(book.supervisor)
    at = f"/leaks/{leak}/end?unfinished={ending}"
    page = form_page(supervisor.get(at))
    answer = press_on(supervisor, f"/leaks/{leak}/end", page)
    assert answer.status_code == 303
    (ended,) = (row for row in rows(book.store, ENTRY) if row["kind"] == "leak_ended")
    assert (ended["typed_by"], ended["sent_by"]) == (book.crew.person, book.supervisor.person)
    assert rows(book.store, UNFINISHED) == []
