"""Nobody's clock fills in a day: boxes begin empty, and Now puts this minute in where a person asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
import time_machine
from flask.testing import FlaskClient

from tests.intake.lines import size
from tests.makers.book import Book
from tests.makers.form_page import form_page, press_on

OPENING = "/leaks/new"
TYPED: dict[str, str | list[str]] = {
    "source__component": "threaded tee",
    "source__happened": ["2026-03-03", "09:05"],
}
NOW = datetime(2026, 3, 5, 15, 20, 59, tzinfo=UTC)


@pytest.fixture
def at_the_truck() -> Iterator[None]:
    """It is 15:20 in UTC, 10:20 in Eastmarsh, 08:20 in Highfold."""
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.mark.usefixtures("at_the_truck")
def test_no_box_holds_a_day_or_an_hour_before_somebody_says_one(crew: FlaskClient, leak: str) -> None:
    pages = [form_page(crew.get(f"/leaks/{leak}/{each}")) for each in ("source", "visit", "repair", "grade", "note")]
    assert {"".join(typed) for page in pages for name, typed in page.boxes.items() if "happened" in name} == {""}


@pytest.mark.usefixtures("at_the_truck")
def test_now_is_this_minute_by_the_clock_of_the_area_and_saves_nothing(
    crew: FlaskClient, address: str, book: Book
) -> None:
    before = size(book.store)
    answer = press_on(crew, address, form_page(crew.get(address)), **TYPED, now="source-happened")
    page = form_page(answer)
    assert (answer.status_code, page.boxes["source-happened"]) == (200, ["2026-03-05", "10:20"])
    assert (page.boxes["source-component"], size(book.store)) == (["threaded tee"], before)


@pytest.mark.usefixtures("at_the_truck")
def test_now_asks_for_the_area_first_where_each_has_a_clock_of_its_own(officer: FlaskClient, book: Book) -> None:
    page = form_page(officer.get(OPENING))
    asked = form_page(press_on(officer, OPENING, page, now="leak-happened"))
    assert asked.boxes["leak-happened"] == ["", ""]
    assert "in which area" in asked.said("leak-happened")
    told = form_page(press_on(officer, OPENING, asked, leak__area=book.other_area, now="leak-happened"))
    assert told.boxes["leak-happened"] == ["2026-03-05", "08:20"]


def test_now_in_a_box_that_is_none_of_the_page_s_changes_nothing(crew: FlaskClient, address: str) -> None:
    answer = press_on(crew, address, form_page(crew.get(address)), **TYPED, now="source-component")
    assert form_page(answer).boxes["source-happened"] == ["2026-03-03", "09:05"]
