"""Several people who save at one moment, on pages of their own: everything is recorded, once, in one order; and whoever
is signed out meanwhile loses nothing of what was typed."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import update
from werkzeug.test import TestResponse

from repairlog.access import Actor
from repairlog.records.rebuild import check
from repairlog.records.store import Store
from repairlog.records.tables import worked
from repairlog.records.tables.beside import SIGN_IN
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.verify import verify
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import FormPage, form_page, press_on
from tests.makers.site import Site, site
from tests.makers.together import together
from tests.makers.trial import forms_of

REPAIR: dict[str, str | list[str]] = {
    "repair__lasting": "permanent",
    "repair__method": "bolt-on clamp",
    "repair__outcome": "tight",
    "repair__pressure_found": "45 psi",
}


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


@pytest.fixture
def leak(book: m.Book) -> str:
    opened = m.leak(book)
    book.say(opened)
    return str(opened["id"])


def opened_by(pages: Site, address: str, *actors: Actor) -> list[tuple[FlaskClient, FormPage]]:
    """The page at that address as each of them has it open, in a browser of their own."""
    browsers = [pages.client(actor) for actor in actors]
    return [(browser, form_page(browser.get(address))) for browser in browsers]


def holds_together(book: m.Book) -> None:
    """The journal verifies, and folding it again gives the same rows."""
    assert verify(book.store).problems == ()
    assert check(book.store).differences == ()


def test_four_who_log_a_repair_on_one_leak_at_once_are_numbered_as_the_repairs_happened(
    book: m.Book, leak: str
) -> None:
    address = f"/leaks/{leak}/repair"
    open_pages = opened_by(site(book), address, book.crew, book.supervisor, book.crew, book.supervisor)

    def save(place: int) -> TestResponse:
        browser, page = open_pages[place]
        return press_on(browser, address, page, **REPAIR, repair__happened=["2026-03-05", f"10:0{place}"])

    saved = together(len(open_pages), save)
    assert [answer.status_code for answer in saved] == [303] * 4
    numbers = {str(row["id"]): row["number"] for row in rows(book.store, worked.ATTEMPT)}
    assert numbers == {page.boxes["repair-id"][0]: place for place, (_, page) in enumerate(open_pages, start=1)}
    holds_together(book)


def test_one_page_that_is_sent_from_four_windows_at_once_logs_one_repair(book: m.Book, leak: str) -> None:
    address = f"/leaks/{leak}/repair"
    pages = site(book)
    (crew, page), *others = opened_by(pages, address, *[book.crew] * 4)
    windows = [(crew, page.token), *((browser, other.token) for browser, other in others)]

    def save(place: int) -> TestResponse:
        browser, token = windows[place]
        same = FormPage(boxes=page.boxes, token=token)
        return press_on(browser, address, same, **REPAIR, repair__happened=["2026-03-05", "10:02"])

    saved = together(len(windows), save)
    assert [(answer.status_code, answer.location) for answer in saved] == [(303, saved[0].location)] * 4
    assert [str(row["id"]) for row in rows(book.store, OF_KIND["repair_attempted"])] == page.boxes["repair-id"]
    holds_together(book)


@pytest.mark.parametrize(("returned_at", "stands"), [("08:39", "accepted"), ("08:41", "returned")])
def test_of_a_repair_that_one_accepts_while_another_returns_it_the_later_decision_counts(
    book: m.Book, leak: str, returned_at: str, stands: str
) -> None:
    attempt = m.attempt(leak)
    book.say(attempt)
    address = f"/leaks/{leak}/attempts/{attempt['id']}/review"
    open_pages = opened_by(site(book), address, book.supervisor, book.officer)
    decided = [("accepted", "08:40"), ("returned", returned_at)]

    def save(place: int) -> TestResponse:
        (browser, page), (outcome, at) = open_pages[place], decided[place]
        return press_on(
            browser, address, page, review__outcome=outcome, review__happened=["2026-03-06", at], review__reason="seen"
        )

    assert [answer.status_code for answer in together(2, save)] == [303, 303]
    said = sorted(row["outcome"] for row in rows(book.store, OF_KIND["repair_reviewed"]))
    assert (said, [row["review"] for row in rows(book.store, worked.ATTEMPT)]) == (["accepted", "returned"], [stands])
    holds_together(book)


def test_whoever_is_signed_out_while_a_form_is_open_saves_nothing_and_keeps_what_was_typed(
    book: m.Book, leak: str
) -> None:
    address = f"/leaks/{leak}/repair"
    ((crew, page),) = opened_by(site(book), address, book.crew)
    close(book, book.crew)
    answer = press_on(crew, address, page, **REPAIR, repair__happened=["2026-03-05", "10:02"])
    assert (answer.status_code, rows(book.store, OF_KIND["repair_attempted"])) == (403, [])
    assert "bolt-on clamp" in dict(forms_of(answer.text)["/sign-in"])["typed"]


def test_whoever_is_signed_out_as_they_save_is_either_saved_or_asked_to_sign_in_and_never_half(
    book: m.Book, leak: str
) -> None:
    address = f"/leaks/{leak}/repair"
    open_pages = opened_by(site(book), address, *[book.crew] * 4)

    def do(place: int) -> TestResponse | None:
        if place == len(open_pages):
            close(book, book.crew)
            return None
        browser, page = open_pages[place]
        return press_on(browser, address, page, **REPAIR, repair__happened=["2026-03-05", f"10:0{place}"])

    answers = [answer for answer in together(len(open_pages) + 1, do) if answer is not None]
    by_id = {page.boxes["repair-id"][0]: answer for (_, page), answer in zip(open_pages, answers, strict=True)}
    stand = {str(row["id"]) for row in rows(book.store, OF_KIND["repair_attempted"])}
    assert {id: answer.status_code for id, answer in by_id.items()} == {id: 303 if id in stand else 403 for id in by_id}
    lost = [a for a in answers if a.status_code == 403 and "bolt-on clamp" not in _typed(a)]
    assert lost == []
    holds_together(book)


def _typed(answer: TestResponse) -> Any:
    return dict(forms_of(answer.text)["/sign-in"])["typed"]


def close(book: m.Book, of: Actor) -> None:
    """Close that person's way in, as an administrator does: every session of theirs is over."""
    with book.store.writing() as tx:
        closed = update(SIGN_IN).where(SIGN_IN.c.person_id == of.person)
        tx.connection.execute(closed.values(closed_at=datetime.now(UTC)))
