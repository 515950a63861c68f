"""A supervisor accepts a repair or returns it, over what it says."""

import pytest
from sqlalchemy import select

from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import fill_in
from tests.makers.site import site


def attempted(book: m.Book, leak: str) -> str:
    attempt = m.attempt(leak, materials=[{"key": "m1", "named": "W-81?"}])
    book.say(attempt, m.test_of(leak, attempt["id"], result="not_tight", remarks="bubbles at the edge"))
    return str(attempt["id"])


def address(leak: str, attempt: str) -> str:
    return f"/leaks/{leak}/attempts/{attempt}/review"


def reviews(book: m.Book) -> list[tuple[str, str | None]]:
    with book.store.reading() as tx:
        worked = tx.connection.execute(select(METADATA.tables["attempt"].c.review)).scalars()
        said = tx.connection.execute(select(METADATA.tables["repair_reviewed"].c.reason)).scalars()
        return list(zip(worked, said, strict=True))


def test_the_page_shows_what_the_attempt_and_its_tests_say_and_its_gaps(book: m.Book, leak: str) -> None:
    attempt = attempted(book, leak)
    other = m.attempt(leak, happened="2026-03-04", method="another method")
    book.say(other)
    shown = " ".join(site(book).client(book.supervisor).get(address(leak, attempt)).text.split())
    said = ["45 psi gauge", "310 kPa", "1/16 in", "bubbles at the edge", "The lot “W-81?” is not on the books."]
    assert [each for each in said if each not in shown] == []
    assert "another method" not in shown


@pytest.mark.parametrize(
    ("outcome", "reason"), [("accepted", ""), ("returned", "test it again at 45 psi"), ("returned", "")]
)
def test_a_repair_is_accepted_or_returned_with_a_reason_or_without_one(
    book: m.Book, leak: str, outcome: str, reason: str
) -> None:
    attempt = attempted(book, leak)
    pages = site(book)
    saved = fill_in(
        pages.client(book.supervisor),
        address(leak, attempt),
        review__outcome=outcome,
        review__reason=reason,
        review__happened=["2026-03-06", "08:40"],
    )
    assert saved.status_code == 303
    assert reviews(book) == [(outcome, reason or None)]


def test_a_crew_may_not_review_and_is_told_so_and_an_attempt_of_another_leak_is_not_there(
    book: m.Book, leak: str
) -> None:
    attempt = attempted(book, leak)
    other = m.leak(book)
    book.say(other)
    pages = site(book)
    asked = [(book.crew, leak), (book.supervisor, other["id"]), (book.supervisor, leak)]
    assert [pages.client(who).get(address(of, attempt)).status_code for who, of in asked] == [403, 404, 200]
