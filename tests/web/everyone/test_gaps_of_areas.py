"""Whoever answers for an area sees among the gaps what the area has not settled, each with the way to settle it."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.site import site

NONE = "The area adopted no rulebook: no leak of it has a day by which anything is owed."


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    return m.opened(sqlite_store)


def gaps_page(client: FlaskClient, **asked: str) -> str:
    answer = client.get("/gaps", query_string=asked)
    assert answer.status_code == 200
    return answer.text


def test_an_area_without_a_rulebook_is_told_to_whoever_may_adopt_one_and_leads_there(book: m.Book) -> None:
    officer = site(book).client(book.officer)
    shown = gaps_page(officer)
    assert NONE in shown
    assert f'href="/rulebooks/areas/{book.area}"' in shown
    assert NONE not in gaps_page(site(book).client(book.crew))
    assert NONE not in gaps_page(officer, code="grade_not_known")


def test_one_adopted_for_a_day_to_come_is_told_with_that_day(book: m.Book) -> None:
    book.say(m.adopted(book.area, from_on="2031-01-01"))
    shown = gaps_page(site(book).client(book.officer))
    assert "The area adopted a rulebook from 1 Jan 2031 on: until then nothing has a day" in shown


def test_rules_to_be_confirmed_are_counted_down_and_lead_to_their_list(book: m.Book) -> None:
    guide = book.store.rulebooks.offered()["us-guide"]
    named = {"rulebook": "us-guide", "digest": guide.digest}
    book.say(m.adopted(book.area, **named))
    officer = site(book).client(book.officer)
    before = _counted(gaps_page(officer))
    book.say(m.confirmed(book.area, rule="re-evaluate-2", **named))
    after = _counted(gaps_page(officer))
    assert (before - after, before > 20) == (1, True)
    assert f'href="/rulebooks/areas/{book.area}#unconfirmed"' in gaps_page(officer)


def test_figures_that_a_rulebook_leaves_open_stand_one_by_one_until_another_says_them(book: m.Book) -> None:
    guide = book.store.rulebooks.offered()["us-guide"]
    book.say(m.adopted(book.area, rulebook="us-guide", digest=guide.digest))
    officer = site(book).client(book.officer)
    shown = gaps_page(officer)
    assert f"{len(guide.gaps)} figures are left open by us-guide" in shown
    assert "To be filled in by the operator: how long to wait after venting" in shown
    book.say(m.adopted(book.area, from_on="2026-01-01"))
    assert "left open" not in gaps_page(officer)


def _counted(page: str) -> int:
    return int(page.partition(" rules of us-guide are to be confirmed")[0].rpartition(">")[2])
