"""Operating areas on pages: their settings, what lies in them, and what a change would touch."""

from __future__ import annotations

import csv
import io
import re

import pytest
from flask.testing import FlaskClient

from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site


@pytest.fixture
def admin(book: m.Book) -> FlaskClient:
    return site(book).client(book.everyone)


def in_words(page: str) -> str:
    """The page without its marks."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page))


def test_the_list_tells_height_and_atmosphere_of_each_area_and_how_many_leaks_are_open(
    book: m.Book, admin: FlaskClient
) -> None:
    """A mile up the standard atmosphere is 83.4 kPa. Source: ISO 2533, as tests/published/test_units_atmosphere."""
    leak, ended = m.leak(book), m.leak(book)
    book.say(leak, ended, m.ending(ended["id"], how="no_reading", reason="looked again"))
    page = in_words(admin.get("/areas").text)
    assert "America/Denver 5280 ft, 1609 m 83.4 kPa, 12.1 psi absolute 5.0 % methane" in page
    rows = list(csv.DictReader(io.StringIO(admin.get("/areas?as=csv").data.decode("utf-8-sig"))))
    assert [(row["Code"], row["Open leaks"], row["Leaks"]) for row in rows] == [("ES", "1", "2"), ("HF", "0", "0")]


def test_an_area_s_page_tells_how_far_it_has_counted_and_who_has_a_role_there(book: m.Book, admin: FlaskClient) -> None:
    book.say(m.leak(book), m.leak(book), m.crew(book))
    page = in_words(admin.get(f"/areas/{book.area}").text)
    assert "2026 2 0" in page
    assert "ES-26-0001 for a leak" in page
    assert re.search(r"Crew M\. Aldous .*Compliance officer every area P\. Lindqvist", page)
    crew = in_words(site(book).client(book.crew).get(f"/areas/{book.area}").text)
    assert ("Who has a role here today" in crew, "P. Lindqvist" in crew.partition("Every entry")[0]) == (False, False)


def test_an_area_is_added_with_its_settings_and_one_that_cannot_be_read_is_sent_back(admin: FlaskClient) -> None:
    typed = {
        "entry__name": "Low Vale",
        "entry__code": "es",
        "entry__zone": "Central",
        "entry__elevation": "800 feets high",
        "entry__happened": ["2026-01-05", ""],
    }
    wrong = fill_in(admin, "/areas/new", **typed)
    page = form_page(wrong)
    assert (wrong.status_code, page.boxes["entry-zone"]) == (422, ["Central"])
    right = {**typed, "entry__code": "LV", "entry__zone": "America/Chicago", "entry__elevation": "800 ft"}
    added = fill_in(admin, "/areas/new", **right, entry__lel_basis="4.4")
    told = in_words(admin.get(added.location).text)
    assert added.status_code == 303
    assert ("800 ft, 244 m" in told, "4.4 % methane" in told, "LV-26-0001 for a leak" in told) == (True, True, True)


def test_the_cut_over_day_says_what_it_would_touch_and_stands_on_the_page(book: m.Book, admin: FlaskClient) -> None:
    book.say(m.leak(book), m.leak(book))
    form = admin.get(f"/areas/{book.area}/cut-over").text
    assert "It is read again for the 2 leaks of this area" in form
    saved = fill_in(
        admin,
        f"/areas/{book.area}/cut-over",
        entry__cut_over_on="2026-03-04",
        entry__happened=["2026-03-01", ""],
    )
    assert "Cut-over day 4 Mar 2026" in in_words(admin.get(saved.location).text)
