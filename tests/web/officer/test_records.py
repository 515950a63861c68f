"""Records: what the filter asks for, how many fit, and their stories on one page."""

from __future__ import annotations

import re

import pytest

from repairlog.web.frame import listing
from repairlog.web.officer import records
from tests.makers import book as m
from tests.makers.site import site
from tests.web.everyone.read import chosen, link, rows_of, said_beside, text_of


@pytest.fixture
def officer(book):
    return site(book).client(book.officer)


def numbers(page):
    return [word for row in rows_of(page) for word in row.split() if word.startswith(("ES-", "HF-"))]


def test_the_address_holds_the_filter_and_the_page_tells_how_many_fit(book, officer, monkeypatch):
    monkeypatch.setattr(listing, "A_PAGE", 2)
    book.say(*(m.leak(book) for _ in range(3)), m.leak(book, street="Mill Lane"), m.leak(book, area=book.other_area))
    page = officer.get("/records?area=ES&street=quarry&by=reported&from=2026-03-01").text
    assert numbers(page) == ["ES-26-0003", "ES-26-0002"]
    assert "2 of 3 leaks" in text_of(page)
    assert (chosen(page, "area"), chosen(page, "by")) == ("ES", "reported")
    assert numbers(officer.get(link(page, "Further")).text) == ["ES-26-0001"]
    assert link(page, "Their stories, to print") == "/records/stories?area=ES&by=reported&from=2026-03-01&street=quarry"
    file = officer.get(link(page, "Take these away as CSV"))
    assert file.get_data(as_text=True).count("\r\n") == 4
    assert 'filename="records-ES-' in file.headers["Content-Disposition"]


NOTED = "Notes are searched in one area and in days that span a year at most. Choose those; it is left out for now."


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("notes=dog", NOTED),
        ("notes=dog&area=ES", NOTED),
        ("notes=dog&from=2026-01-01&until=2026-12-31", NOTED),
        ("notes=dog&area=ES&from=2026-01-01", NOTED),
        ("notes=dog&area=ES&from=2025-12-31&until=2026-12-31", ""),
        ("notes=dog&area=ES&from=2025-12-30&until=2026-12-31", NOTED),
    ],
)
def test_notes_are_searched_in_one_area_and_days_of_a_year(book, officer, asked, said):
    other, leak = m.leak(book), m.leak(book)
    book.say(other, leak, m.note(leak["id"]))
    page = officer.get(f"/records?{asked}").text
    assert said_beside(page, "notes") == said
    assert numbers(page) == (["ES-26-0002", "ES-26-0001"] if said else ["ES-26-0002"])
    assert (officer.get(f"/records?{asked}&as=csv").mimetype == "text/csv") is not bool(said)


def test_what_cannot_be_read_is_said_beside_its_field(book, officer):
    book.say(m.leak(book))
    page = officer.get("/records?crew=none&by=dusk").text
    assert said_beside(page, "crew") == "There is no such crew here; it is left out for now."
    assert said_beside(page, "by") == "There is no day “dusk” of a leak; the day of its report is taken."
    assert numbers(page) == ["ES-26-0001"]


def test_the_stories_are_those_that_fit_and_the_page_tells_of_how_many(book, officer, monkeypatch):
    monkeypatch.setattr(records, "MOST_STORIES", 2)
    made = [m.leak(book, house_number=str(place)) for place in (1, 2, 3)]
    book.say(*made, m.visit(made[2]["id"]), m.leak(book, street="Mill Lane"))
    first = officer.get("/records/stories?street=quarry").text
    assert "2 stories of the 3 leaks that fit · Street or town: quarry" in text_of(first)
    stories = re.findall(r'<article class="one-story".*?</article>', first, flags=re.DOTALL)
    assert [re.search(r"<h2>(.*?)</h2>", each)[1] for each in stories] == [
        "3 Quarry Lane, Harrowsedge",
        "2 Quarry Lane, Harrowsedge",
    ]
    assert "60 %LEL" in text_of(stories[0])
    second = officer.get(link(first, "Further")).text
    assert "1 Quarry Lane, Harrowsedge" in text_of(second)
    assert 'id="e-' not in first  # an entry may stand in two stories


def test_a_person_of_another_area_sees_and_counts_nothing(book):
    book.say(m.leak(book, area=book.other_area))
    supervisor = site(book).client(book.supervisor)
    for address in ("/records", "/records/stories"):
        page = supervisor.get(address).text
        assert "HF-26" not in page
        assert "Highfold" not in page
