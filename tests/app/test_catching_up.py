"""A book that is served catches up by itself with what a change left to be worked out again."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from repairlog.app import lay_over, without_book
from repairlog.app.catching_up import catch_up
from repairlog.records.store import Store
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.picture import Change
from repairlog.records.tables.write import write
from repairlog.settings import Settings
from repairlog.trade.rulebook.kept import Rulebooks
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.site import Site, send

AT = datetime(2026, 9, 12, 16, tzinfo=UTC)
NAME = "catches up"


@pytest.fixture
def served(sqlite_store: Store) -> Site:
    """A book as it is served, with one leak."""
    app, book = without_book(https=False), m.opened(sqlite_store)
    catch_up(app)
    lay_over(app, book.store, settings=Settings(database_url=str(book.store.engine.url)))
    return Site(app, book)


def leave_waiting(of: Site, leak: str) -> None:
    row = {"subject_id": m.read_id(leak), "stale_since": AT, "because_id": m.read_id(of.book.area)}
    with of.book.store.writing() as tx:
        write(tx, Change(puts={STALE: [row]}))


def wait_for(of: Site, *, waiting: int) -> None:
    until = time.monotonic() + 20
    while len(rows(of.book.store, STALE)) != waiting or any(each.name == NAME for each in threading.enumerate()):
        assert time.monotonic() < until, "it does not catch up"
        time.sleep(0.02)


def test_what_waited_when_it_was_started_is_worked_out_after_the_first_answer(served: Site) -> None:
    served.book.say(leak := m.leak(served.book))
    leave_waiting(served, leak["id"])
    served.client(served.book.officer).get("/rulebooks", buffered=True).close()
    wait_for(served, waiting=0)


def test_what_a_post_left_is_worked_out_after_its_answer_and_a_page_alone_starts_nothing(served: Site) -> None:
    served.book.say(leak := m.leak(served.book))
    crew = served.client(served.book.crew)
    crew.get("/today").close()
    wait_for(served, waiting=0)
    leave_waiting(served, leak["id"])
    crew.get("/today").close()
    assert len(rows(served.book.store, STALE)) == 1
    note = {"entry-id": m.new_id(), "entry-happened": "2026-03-05", "entry-text": "gate locked"}
    send(crew, f"/leaks/{leak['id']}/note", note).close()
    wait_for(served, waiting=0)


def test_what_cannot_be_worked_out_is_logged_waits_on_and_harms_no_answer(
    served: Site, caplog: pytest.LogCaptureFixture
) -> None:
    served.book.say(leak := m.leak(served.book), m.adopted(served.book.area))
    leave_waiting(served, leak["id"])
    store = served.book.store
    client = served.client(served.book.officer)
    served.app.extensions["repairlog.store"] = replace(store, rulebooks=Rulebooks())
    answer = client.get("/healthy")
    answer.close()
    wait_for(served, waiting=1)
    assert "could not be" in caplog.text
