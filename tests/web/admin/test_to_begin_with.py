"""What an administrator of an empty book is led to, until the first leak."""

from __future__ import annotations

import re

from tests.makers import book as m
from tests.makers.site import site
from tests.web.everyone.read import link, text_of

STEPS = re.compile(r'<li(?: class="(done)")?><a href="([^"]+)">')


def steps(page: str) -> dict[str, bool]:
    """By address, whether something is there already."""
    return {address: bool(done) for done, address in STEPS.findall(page.partition('class="steps"')[2])}


def test_an_administrator_of_an_empty_book_is_led_from_the_area_to_the_first_leak(book: m.Book) -> None:
    client = site(book).client(book.everyone)
    alone = client.get("/today").text
    assert ("/leaks/new" in steps(alone), "Open your first leak" in alone) == (False, True)  # it may not open one
    book.say(m.role_given(str(book.everyone.person), "supervisor", area=book.area))
    before = steps(client.get("/today").text)
    assert list(before) == ["/areas", "/people", "/crews", "/rulebooks", "/instruments", "/stores", "/leaks/new"]
    assert before == dict.fromkeys(before, False) | {"/areas": True, "/people": True, "/stores": True}
    book.say(m.crew(book), m.instrument(book))
    page = client.get("/today").text
    there = {address for address, done in steps(page).items() if done}
    assert there == {*before} - {"/rulebooks", "/leaks/new"}
    assert ("4 people" in page, "1 crew<" in page) == (True, True)


def test_nobody_else_is_led_there_and_nobody_once_a_leak_is_in_the_book(book: m.Book) -> None:
    there = site(book)
    assert steps(there.client(book.officer).get("/today").text) == {}
    book.say(m.leak(book))
    assert steps(there.client(book.everyone).get("/today").text) == {}


def test_an_administrator_of_a_book_in_use_is_shown_who_can_come_in_and_what_the_books_lack(book: m.Book) -> None:
    there = site(book)
    book.say(m.leak(book))
    page = there.client(book.everyone).get("/today").text
    told = text_of(page.partition("Sign-ins and what the books lack")[2])
    assert "1 sign-in that is not closed signed in now in 1 browser, 0 programs send" in told
    assert "2 areas without a rulebook Eastmarsh, " in told
    assert "person of a crew without any qualification M. Aldous" in told
    assert link(page, "sign-in that is not closed") == "/sign-ins"
    assert "Sign-ins and what" not in there.client(book.officer).get("/today").text
