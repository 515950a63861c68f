"""Companies on pages: put on the books, ended and begun again, with all that bears their name."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from repairlog.access import Actor
from repairlog.entries.ids import read_id
from repairlog.records.tables.books import COMPANY_TERM, ROLE
from tests.makers import book as m
from tests.makers import companies
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.web.everyone.read import text_of

DAY = {"entry__happened": ["2026-03-05", ""]}


@pytest.fixture
def admin(book: m.Book) -> FlaskClient:
    return site(book).client(book.everyone)


def test_a_company_is_put_on_the_books_under_a_name_that_is_written_already(book: m.Book, admin: FlaskClient) -> None:
    book.say(m.person("K. Ames", company="dale pipe co"), m.crew(book, company="Dale Pipe Co"))
    listed = admin.get("/companies/not-on-the-books").text
    assert (
        'href="/companies/new?name=Dale+Pipe+Co"' in listed or 'href="/companies/new?name=Dale%20Pipe%20Co"' in listed
    )
    saved = fill_in(admin, "/companies/new?name=Dale+Pipe+Co", **DAY, entry__what="contractor")
    page = text_of(admin.get(saved.location).text)
    assert saved.status_code == 303
    assert [word in page for word in ("works for us", "K. Ames", "written dale pipe co", "Truck 4")] == [True] * 4
    assert "is on the books" in admin.get("/companies/not-on-the-books").text
    assert "Dale Pipe Co" in admin.get("/companies").text


def test_its_work_is_ended_and_begins_again(book: m.Book, admin: FlaskClient) -> None:
    hired = companies.company()
    book.say(hired)
    at = f"/companies/{hired['id']}"
    ended = fill_in(admin, f"{at}/left", **DAY, entry__until_on="2026-03-05", entry__reason="the main is done")
    again = fill_in(admin, f"{at}/back", **DAY, entry__from_on="2027-03-01")
    assert (ended.status_code, again.status_code) == (303, 303)
    terms = [(str(row["from_on"]), str(row["until_on"])) for row in rows(book.store, COMPANY_TERM)]
    assert sorted(terms) == [("2025-02-03", "2026-03-05"), ("2027-03-01", "None")]
    assert "the main is done" in text_of(admin.get(at).text)


def test_the_pages_of_its_people_and_crews_lead_to_it(book: m.Book, admin: FlaskClient) -> None:
    hired, ames, crew = companies.company(), m.person("K. Ames", company="DALE PIPE CO"), m.crew(book)
    book.say(hired, ames, crew, m.crew_changed(crew["id"], company="Dale Pipe Co"))
    for at in (f"/people/{ames['id']}", f"/crews/{crew['id']}"):
        assert f'href="/companies/{hired["id"]}"' in admin.get(at).text


@pytest.mark.parametrize("at", ["/people/new", "/crews/new", "/people/visiting", "/people/{crew}/role"])
def test_a_form_that_asks_for_a_company_offers_those_on_the_books(book: m.Book, admin: FlaskClient, at: str) -> None:
    address = at.format(crew=book.crew.person)
    assert 'list="companies"' not in admin.get(address).text
    book.say(companies.company(), companies.company("Weir & Sons"))
    page = admin.get(address).text
    assert 'list="companies"' in page
    assert '<option value="Dale Pipe Co"></option><option value="Weir &amp; Sons"></option>' in page


def test_a_role_that_a_person_begins_with_is_bound_to_a_company(book: m.Book, admin: FlaskClient) -> None:
    role = {"role": "crew", "area": book.area, "from_on": "2026-03-02", "company": "Dale Pipe Co"}
    fields = {f"entry__roles__0__{name}": value for name, value in role.items()}
    saved = fill_in(admin, "/people/new", entry__name="K. Ames", **DAY, **fields)
    assert saved.status_code == 303
    assert "Dale Pipe Co" in {row["company"] for row in rows(book.store, ROLE)}


def test_whoever_sees_one_company_s_work_reads_that_company_s_page_and_no_other(book: m.Book) -> None:
    hired, other, ames = companies.company(), companies.company("Weir Lab"), m.person("K. Ames", company="Dale Pipe Co")
    book.say(hired, other, ames, m.role_given(ames["id"], area=book.area, company="dale pipe co"))
    theirs = site(book).client(Actor(person=read_id(ames["id"]), sure="password"))
    answers = [theirs.get(f"/companies/{each['id']}").status_code for each in (hired, other)]
    assert (answers, theirs.get("/companies").status_code) == ([200, 403], 403)
    assert "K. Ames" in theirs.get(f"/companies/{hired['id']}").text


def test_work_outside_a_term_and_names_not_on_the_books_are_told_once_there_is_a_company(
    book: m.Book, admin: FlaskClient
) -> None:
    ames, cole = m.person("K. Ames", company="Dale Pipe Co"), m.person("T. Cole", company="Stallard")
    leak = m.leak(book)
    did = {"did": [{"key": "d1", "person": ames["id"]}]}
    book.say(ames, cole, leak, m.note(leak["id"]) | {"happened": "2026-03-04"} | did)
    assert "of a company" not in text_of(admin.get("/gaps").text)
    hired = companies.company()
    book.say(hired, companies.left(hired["id"]))
    told = text_of(admin.get("/gaps").text)
    assert [each in told for each in ("1 entry on a leak is by people", "1 name of a company")] == [True, True]
    listed = admin.get(f"/companies/outside-their-terms?company={hired['id']}").text
    assert [each in listed for each in (f"/leaks/{leak['id']}#e-", "K. Ames", "4 Mar 2026")] == [True] * 3
    assert "Work outside its terms" in admin.get(f"/companies/{hired['id']}").text
    book.say(companies.back(hired["id"], from_on="2026-03-04"))
    assert "Work outside its terms" not in admin.get(f"/companies/{hired['id']}").text
