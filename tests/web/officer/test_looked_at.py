"""An inspector on the pages: what is seen of the period, what is told when it is over, and what is listed of it."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest
from flask.testing import FlaskClient

from repairlog.access import Actor
from repairlog.records.store import Busy
from repairlog.web.frame import asking
from tests.makers import book as m
from tests.makers.site import Site, site
from tests.web.everyone.read import rows_of, text_of

PERIOD = {"period_from_on": "2026-02-01", "period_until_on": "2026-02-28"}


def inspector(book: m.Book, **fields: str) -> Actor:
    """Somebody who inspects Eastmarsh in February 2026, for as long as anybody runs this."""
    person = m.new_id()
    book.say({"kind": "person_added", "id": person, "name": "A. Verrill", "happened": "2025-01-02"})
    book.say(m.role_given(person, "inspector", **{"area": book.area, "until_on": "2999-12-31"} | PERIOD | fields))
    return Actor(person=m.read_id(person), sure="password")


@pytest.fixture
def leaks(book: m.Book) -> tuple[dict[str, Any], dict[str, Any]]:
    """One that was open in the period, and one that was reported after it."""
    inside = m.leak(book, happened="2026-02-10 08:00", house_number="1")
    after = m.leak(book, happened="2026-03-01 08:00", house_number="2")
    tried = [m.attempt(each["id"], materials=[{"key": "m1", "named": "off the truck"}]) for each in (inside, after)]
    book.say(inside, after, *tried)
    return inside, after


@pytest.fixture
def at(book: m.Book) -> Site:
    return site(book)


def statuses(client: FlaskClient, *addresses: str) -> list[int]:
    return [client.get(address).status_code for address in addresses]


def test_an_inspector_sees_the_leaks_of_the_period_on_every_page_and_nothing_else(book, at, leaks):
    inside, _after = leaks
    client = at.client(inspector(book))
    for page in ("/leaks", "/records", "/gaps"):
        shown = client.get(page).text
        assert ("ES-26-0001" in shown, "ES-26-0002" in shown) == (True, False), page
        file = client.get(f"{page}?as=csv").text
        assert ("ES-26-0001" in file, "ES-26-0002" in file) == (True, False), page
    stories = client.get("/records/stories").text
    assert ("ES-26-0001" in stories, "ES-26-0002" in stories) == (True, False)
    assert statuses(client, *(f"/leaks/{each['id']}" for each in leaks)) == [200, 404]
    sheet = client.get(f"/leaks/{inside['id']}").text
    assert "Add a note" not in sheet
    assert "Put right" not in sheet
    asked = [f"/leaks/{inside['id']}/{page}" for page in ("note", "visit", "repair", "end", "attach")]
    assert statuses(client, *asked, "/leaks/new", "/looked-at") == [403] * 7


def test_after_the_last_day_nothing_is_seen_and_it_is_said_why(book, at, leaks):
    client = at.client(inspector(book, until_on="2026-03-04"))
    page = client.get("/leaks").text
    assert "Your role ended on 4 Mar 2026, its last day." in text_of(page)
    assert "ES-26" not in page
    assert statuses(client, f"/leaks/{leaks[0]['id']}") == [404]


def test_what_an_inspector_was_shown_is_listed_and_nothing_of_others(book, at, leaks):
    inside, after = leaks
    who, officer = inspector(book), at.client(book.officer)
    client = at.client(who)
    client.get("/leaks?street=quarry")
    client.get("/records?as=csv")
    client.get(f"/leaks/{inside['id']}")
    client.get(f"/leaks/{after['id']}")  # is not shown
    officer.get(f"/leaks/{after['id']}")
    page = officer.get("/looked-at").text
    told = [row.split(maxsplit=4)[4] for row in rows_of(page)]
    assert told == [
        "A. Verrill Sheet ES-26-0001",
        "A. Verrill Records, taken away as CSV",
        "A. Verrill Leaks street quarry",
    ]
    file = officer.get("/looked-at?as=csv")
    rows = list(csv.reader(io.StringIO(file.text.lstrip("\ufeff"))))
    assert [row[2:] for row in rows] == [
        ["Who", "Page", "Number", "Address"],
        ["A. Verrill", "Sheet", "ES-26-0001", f"/leaks/{inside['id']}"],
        ["A. Verrill", "Records, taken away as CSV", "", "/records?as=csv"],
        ["A. Verrill", "Leaks", "", "/leaks?street=quarry"],
    ]


def test_the_list_goes_by_who_and_when_and_page_by_page(book, at, leaks, monkeypatch):
    monkeypatch.setattr("repairlog.web.frame.listing.A_PAGE", 2)
    first, second = inspector(book), inspector(book)
    for who in (first, first, first, second):
        at.client(who).get("/leaks")
    officer = at.client(book.officer)

    def found(asked: str) -> int:
        return len(rows_of(officer.get(f"/looked-at?{asked}").text))

    page = officer.get(f"/looked-at?who={first.person}").text
    older = page.split("older=")[1].split('"')[0]
    assert (found(f"who={first.person}"), found(f"who={first.person}&older={older}")) == (2, 1)
    assert [found(asked) for asked in ("until=2026-03-05", "from=2999-01-01", "from=2026-03-05", "who=x")] == [
        0,
        0,
        2,
        2,
    ]


def test_an_officer_of_another_area_does_not_read_of_it(book, at, leaks):
    at.client(inspector(book)).get("/leaks")
    other = m.new_id()
    book.say({"kind": "person_added", "id": other, "name": "N. Ives", "happened": "2025-01-02"})
    book.say(m.role_given(other, "officer", area=book.other_area))
    assert "A. Verrill" not in at.client(Actor(person=m.read_id(other), sure="password")).get("/looked-at").text


def test_what_cannot_be_listed_is_not_shown(book, at, leaks, monkeypatch):
    client = at.client(inspector(book))

    def busy(*_store: Any, **_look: Any) -> None:
        raise Busy

    monkeypatch.setattr(asking, "list_look", busy)
    answer = client.get(f"/leaks/{leaks[0]['id']}")
    assert (answer.status_code, "Quarry Lane" in answer.text) == (503, False)
