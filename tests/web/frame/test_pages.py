"""Which pages the shell leads to: the few of a person's daily work first, and none that they may not open."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Any

import pytest

from repairlog.access import Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.entries.operator import ROLES
from repairlog.intake import NotUnderstood
from repairlog.records.store import Store
from repairlog.web.frame.pages import NARROW, WIDE, every_link
from tests.makers import book as m
from tests.makers.site import site


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """Nothing here hangs on the database."""
    return m.opened(sqlite_store)


LINK = re.compile(r'<a href="([^"]+)"')


def led_to(text: str) -> tuple[list[str], list[str]]:
    """The addresses in the row and under the fold; on a phone some of the row stand under the fold, too."""
    row, _fold, rest = text.partition("<details")
    row = row.partition('<div class="row">')[2]
    return LINK.findall(row), LINK.findall(rest.partition("</details>")[0])


def holder(book: m.Book, *roles: str) -> Any:
    """A person who holds these roles in the book's area, as they ask."""
    id = m.new_id()
    rows = [{"key": role, "role": role, "area": book.area, "from_on": "2025-01-02"} for role in roles]
    rows = [row | ({"until_on": "2099-12-31"} if row["role"] == "inspector" else {}) for row in rows]
    given = {"roles": rows} if rows else {}
    book.say({"kind": "person_added", "id": id, "name": "K. Ames", "happened": "2025-01-02"} | given)
    held = [Membership(role=role, area=read_id(book.area), from_on="2025-01-02") for role in roles]
    return m.Actor(person=read_id(id), sure="password", memberships=tuple(held), signed_in_on="2025-01-02")


@pytest.mark.parametrize("role", ROLES)
def test_each_role_is_led_to_every_page_that_it_may_open_and_to_no_other(role: str, book: m.Book) -> None:
    there = site(book)
    client = there.client(holder(book, role))
    row, fold = led_to(client.get("/today").text)
    with there.app.test_request_context():
        addresses = {there.app.url_for(link.endpoint) for link in every_link()}
    answers = {address: client.get(address).status_code for address in addresses}
    assert set(answers.values()) <= {200, 403}
    assert {*row, *fold} - {"/unfinished"} == {address for address, status in answers.items() if status == 200}


def test_a_crew_and_an_officer_begin_with_the_pages_of_their_day(book: m.Book) -> None:
    there = site(book)
    crew, officer = (led_to(there.client(who).get("/today").text)[0] for who in (book.crew, book.officer))
    assert crew[:3] == ["/today", "/calls", "/leaks"]
    assert "/calls" not in officer
    assert {"/gaps", "/records"} <= set(officer)


def test_whoever_holds_every_role_has_no_more_in_the_row_than_there_is_room_for(book: m.Book) -> None:
    client = site(book).client(holder(book, *ROLES))
    row, fold = led_to(client.get("/today").text)
    assert len(row) <= WIDE
    assert set(row[NARROW:]) <= set(fold)
    assert set(row[:NARROW]).isdisjoint(fold)


def test_whoever_holds_no_role_today_is_led_somewhere_all_the_same(book: m.Book) -> None:
    row, fold = led_to(site(book).client(holder(book)).get("/today").text)
    assert row[0] == "/today"
    assert "/unfinished" in fold


def test_what_is_left_unfinished_stands_in_the_row_in_the_place_of_two_others(book: m.Book) -> None:
    who = holder(book, *ROLES)
    client = site(book).client(who)
    before, _fold = led_to(client.get("/today").text)
    with pytest.raises(NotUnderstood):
        book.say(m.leak(book, happened="one day"), by=who, moments=Moments(received=datetime.now(UTC)))
    after, fold = led_to(client.get("/today").text)
    assert after == [*before[: WIDE - 2], "/unfinished"]
    assert "/unfinished" not in fold
