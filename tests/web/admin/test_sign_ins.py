"""Where a person is signed in: ended by an administrator when a phone is lost, and by the person themselves."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from flask.testing import FlaskClient

from repairlog.records.beside.passwords import fits
from repairlog.records.beside.sign_ins import sign_in_named
from repairlog.records.beside.tokens import make_token, token_shown
from repairlog.web.frame.device import device_of
from tests.makers import book as m
from tests.makers.site import Site, send, site
from tests.web.everyone.read import text_of

PHONE = "Mozilla/5.0 (Android 14; Mobile; rv:132.0) Gecko/132.0 Firefox/132.0"
DESK = "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36"
TABLET = (
    "Mozilla/5.0 (iPad; CPU OS 17_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Safari/604.1"
)


@pytest.fixture
def at(book: m.Book) -> Site:
    return site(book)


@pytest.fixture
def administrator(at: Site) -> FlaskClient:
    return at.client(at.book.everyone)


def came_in(at: Site, device: str) -> FlaskClient:
    """A browser of that kind in which the crew's leader signs in with the password that `at.client` gave."""
    client = at.app.test_client()
    name = {"name": f"sign-in {at.book.crew.person}", "password": "not used"}
    answer = send(client, "/sign-in", name, headers={"User-Agent": device})
    assert answer.status_code == 302
    return client


def is_in(client: FlaskClient) -> bool:
    return client.get("/leaks").status_code == 200


def page_of(at: Site) -> str:
    return f"/people/{at.book.crew.person}/sign-ins"


def mark_beside(page: str, words: str) -> str:
    """The mark that the button of the line with those words sends."""
    line = next(each for each in page.split("<li>") if words in each)
    found = re.search(r'name="mark" value="([0-9a-f]+)"', line)
    assert found
    return found[1]


@pytest.mark.parametrize(
    ("header", "device"),
    [(PHONE, "Firefox, Android"), (DESK, "Chrome, Windows"), (TABLET, "Safari, iPad"), ("curl/8.5", ""), ("", "")],
)
def test_a_browser_is_told_by_what_it_says_that_it_is(header: str, device: str) -> None:
    """The headers: as those browsers send them, from memory."""
    assert device_of(header) == device


def test_a_lost_phone_is_signed_out_at_once_and_its_token_closed(at: Site, administrator: FlaskClient) -> None:
    at.client(at.book.crew)
    phone, desk = came_in(at, PHONE), came_in(at, DESK)
    person, now = at.book.crew.person, datetime.now(UTC)
    token = make_token(at.book.store, person=person, what="tablet in truck 4", at=now)
    others = make_token(at.book.store, person=at.book.officer.person, what="reports", at=now)
    page = text_of(administrator.get(page_of(at)).text)
    assert [word in page for word in ("Firefox, Android", "Chrome, Windows", "tablet in truck 4", "reports")] == [
        *(True, True, True),
        False,
    ]
    done = posted(administrator, page_of(at), "/end")
    assert "Signed out everywhere" in text_of(done)
    assert (is_in(phone), is_in(desk), is_in(administrator)) == (False, False, True)
    assert token_shown(at.book.store, token) is None
    assert token_shown(at.book.store, others) is not None
    assert is_in(came_in(at, PHONE))  # the sign-in itself stands


def test_one_browser_or_one_token_is_ended_alone(at: Site, administrator: FlaskClient) -> None:
    at.client(at.book.crew)
    phone, desk = came_in(at, PHONE), came_in(at, DESK)
    made = {
        what: make_token(at.book.store, person=at.book.crew.person, what=what, at=datetime.now(UTC)) for what in "ab"
    }
    page = administrator.get(page_of(at)).text
    posted(administrator, page_of(at), "/end", mark=mark_beside(page, "Firefox, Android"))
    posted(administrator, page_of(at), "/programs", mark=mark_beside(page, "<b>a</b>"))
    assert (is_in(phone), is_in(desk)) == (False, True)
    assert [token_shown(at.book.store, each) is not None for each in made.values()] == [False, True]


def test_a_mark_of_somebody_else_s_browser_ends_nothing(at: Site, administrator: FlaskClient) -> None:
    at.client(at.book.crew)
    phone, officer = came_in(at, PHONE), at.client(at.book.officer)
    mark = mark_beside(administrator.get(page_of(at)).text, "Firefox, Android")
    posted(administrator, f"/people/{at.book.officer.person}/sign-ins", "/end", mark=mark)
    posted(officer, "/mine", "/sign-ins", mark=mark)
    assert (is_in(phone), is_in(officer)) == (True, True)


def test_a_password_is_made_anew_and_shown_once(at: Site, administrator: FlaskClient) -> None:
    at.client(at.book.crew)
    phone, name = came_in(at, PHONE), f"sign-in {at.book.crew.person}"
    page = posted(administrator, page_of(at), "/password")
    shown = re.search(r"<code>([a-z0-9-]+)</code>", page)
    found = sign_in_named(at.book.store, name)
    assert shown
    assert found
    assert fits(shown[1], found.password_hash)
    assert not is_in(phone)
    assert "<code>" not in administrator.get(page_of(at)).text
    assert "8 characters" in posted(administrator, page_of(at), "/password", new="1234567")
    assert fits(shown[1], _hash(at, name))


def test_a_closed_sign_in_lets_nobody_in(at: Site, administrator: FlaskClient) -> None:
    at.client(at.book.crew)
    phone = came_in(at, PHONE)
    assert "The sign-in is closed." in posted(administrator, page_of(at), "/close")
    assert not is_in(phone)
    answer = send(at.app.test_client(), "/sign-in", {"name": f"sign-in {at.book.crew.person}", "password": "not used"})
    assert answer.status_code == 403


def test_a_person_ends_their_own_elsewhere_and_stays_here(at: Site) -> None:
    at.client(at.book.crew)
    phone, desk, lost = came_in(at, PHONE), came_in(at, DESK), came_in(at, TABLET)
    page = desk.get("/mine").text
    assert "this browser" in page
    posted(desk, "/mine", "/sign-ins", mark=mark_beside(page, "Safari, iPad"))
    assert (is_in(lost), is_in(phone), is_in(desk)) == (False, True, True)
    posted(desk, "/mine", "/sign-ins")
    assert (is_in(phone), is_in(desk)) == (False, True)


def posted(client: FlaskClient, page: str, to: str, **data: str) -> str:
    """What comes of that form of the page, whither it leads."""
    token = re.search(r'name="csrf_token" value="([^"]+)"', client.get(page).text)
    assert token
    address = f"{page}{to}"
    return client.post(address, data={"csrf_token": token[1], **data}, follow_redirects=True).text


def _hash(at: Site, name: str) -> str:
    found = sign_in_named(at.book.store, name)
    assert found
    return found.password_hash
