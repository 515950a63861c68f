"""People and crews on pages: found by the address, taken away, told with all their entries, said, and let in."""

from __future__ import annotations

import csv
import io
import re
from datetime import UTC, datetime

import pytest
from flask.testing import FlaskClient

from repairlog.access import EVERYTHING
from repairlog.entries.ids import read_id
from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.queries.people import memberships
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import send, site
from tests.web.everyone.read import rows_of

NAMES = re.compile(r'<a href="/people/[0-9a-f-]{36}">([^<]+)</a>')


@pytest.fixture
def admin(book: m.Book) -> FlaskClient:
    return site(book).client(book.everyone)


def test_the_list_is_filtered_by_its_address_and_taken_away_the_same(book: m.Book, admin: FlaskClient) -> None:
    book.say(m.qualified(str(book.crew.person), task="weld", until_on="2026-02-01"))
    page = admin.get("/people?qualified=lapsed&on=2026-03-05").text
    assert (NAMES.findall(page), "weld: lapsed, valid until 1 Feb 2026" in page) == (["M. Aldous"], True)
    file = admin.get("/people?qualified=lapsed&on=2026-03-05&as=csv")
    rows = list(csv.DictReader(io.StringIO(file.data.decode("utf-8-sig"))))
    assert [(row["Name"], row["Roles"], row["Ends soon, lapsed or ended"], row["As of"]) for row in rows] == [
        ("M. Aldous", "Crew: Eastmarsh", "weld: lapsed, valid until 1 Feb 2026", "2026-03-05")
    ]


def test_a_filter_that_cannot_be_read_spoils_no_other_and_is_said_beside_its_box(admin: FlaskClient) -> None:
    page = admin.get("/people?on=soon&area=nowhere&crew=none&role=king&name=tolland").text
    assert NAMES.findall(page) == ["R. Tolland"]
    for said in (
        "“soon” is no day of the calendar",
        "There is no area “nowhere” here",
        "“king” is none of the choices",
    ):
        assert said in page


def test_the_list_is_read_page_by_page(book: m.Book, admin: FlaskClient) -> None:
    book.say(*(m.person(f"Twin {number % 3}") for number in range(60)))
    first = admin.get("/people?name=twin").text
    further = re.search(r'href="(/people\?[^"]+)" rel="next"', first)
    assert further
    second = admin.get(further[1].replace("&amp;", "&")).text
    assert (len(NAMES.findall(first)), len(NAMES.findall(second))) == (50, 10)


def test_a_person_s_page_tells_roles_and_evaluations_with_what_rests_on_them(book: m.Book, admin: FlaskClient) -> None:
    crew, leak = str(book.crew.person), m.leak(book)
    evaluated = m.qualified(crew, evaluator=str(book.officer.person), document="file 12", until_on="2026-01-31")
    people = [{"key": "p1", "person": crew, "task": task} for task in ("install clamp",)]
    people.append({"key": "p2", "person": crew, "task": "weld"})
    book.say(evaluated, leak, m.attempt(leak["id"], happened="2026-03-03 12:00", people=people))
    page = re.sub(r"<[^>]+>|\s+", " ", admin.get(f"/people/{crew}").text)
    page = re.sub(r"\s+", " ", page)
    for said in ("; P. Lindqvist; file 12", "1 time at a repair, last 3 Mar 2026", "Lapsed", "Eastmarsh"):
        assert said in page
    assert "Done, with no evaluation for it on the books weld, 1 time, last 3 Mar 2026" in page
    assert page.count("no valid qualification on the books for that day") == 2


def test_one_s_own_page_is_open_to_everybody_and_another_s_only_to_who_keeps_the_books(book: m.Book) -> None:
    crew = site(book).client(book.crew)
    assert crew.get(f"/people/{book.crew.person}").status_code == 200
    assert crew.get(f"/people/{book.officer.person}").status_code == 403


def test_an_administrator_adds_a_person_gives_a_role_and_lets_them_in(book: m.Book, admin: FlaskClient) -> None:
    row = {
        "entry__roles__0__role": "crew",
        "entry__roles__0__area": book.area,
        "entry__roles__0__from_on": "2026-03-02",
    }
    added = fill_in(admin, "/people/new", entry__name="K. Ames", entry__happened=["2026-03-02", ""], **row)
    address = added.location.partition("?")[0]
    given = fill_in(
        admin,
        f"{address}/role",
        entry__role="supervisor",
        entry__from_on="2026-03-02",
        entry__happened=["2026-03-02", ""],
    )
    assert (added.status_code, given.status_code) == (303, 303)
    person = read_id(address.rpartition("/")[2])
    with book.store.reading() as tx:
        held = memberships(EVERYTHING, tx, ids=[person])[person]
    assert {(each.role, each.area) for each in held} == {("crew", read_id(book.area)), ("supervisor", None)}
    made = send(admin, f"{address}/sign-in", {"name": "K. Ames", "new": ""})
    password = re.search(r"<code>([a-z0-9-]{19})</code>", made.text)
    assert (made.status_code, made.headers["Cache-Control"]) == (200, "no-store")
    assert password
    theirs = site(book).app.test_client()
    entered = send(theirs, "/sign-in", {"name": "K. Ames", "password": password[1]})
    assert entered.status_code in (302, 303)
    assert "K. Ames" in theirs.get("/leaks").text
    assert "Signs in as K. Ames." in admin.get(address).text
    assert "There is one already: K. Ames." in admin.get(f"{address}/sign-in").text


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"name": "R. Tolland", "new": ""}, "signs in already"),
        ({"name": " ", "new": ""}, "1 to 200 characters"),
        ({"name": "K. Ames", "new": "short"}, "too short"),
    ],
)
def test_a_sign_in_that_cannot_be_made_says_why(
    book: m.Book, admin: FlaskClient, typed: dict[str, str], told: str
) -> None:
    added = m.person("K. Ames")
    book.say(added)
    make_sign_in(book.store, person=book.officer.person, name="R. Tolland", password="x" * 9, at=datetime.now(UTC))
    answer = send(admin, f"/people/{added['id']}/sign-in", typed)
    assert (answer.status_code, told in answer.text) == (422, True)


def test_a_role_without_its_first_day_is_sent_back_with_what_was_typed(book: m.Book, admin: FlaskClient) -> None:
    answer = fill_in(admin, f"/people/{book.crew.person}/role", entry__role="manager", entry__company="Dale Pipe Co")
    page = form_page(answer)
    assert (answer.status_code, page.boxes["entry-company"]) == (422, ["Dale Pipe Co"])


def test_now_takes_the_operator_s_clock_where_no_area_is_said(book: m.Book, admin: FlaskClient) -> None:
    page = form_page(fill_in(admin, f"/people/{book.crew.person}/left", press="now=entry-happened"))
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", page.boxes["entry-happened"][0])


def test_a_crew_is_made_and_changed_and_its_page_tells_who_was_in_it(book: m.Book, admin: FlaskClient) -> None:
    crew, officer = str(book.crew.person), str(book.officer.person)
    made = fill_in(
        admin,
        "/crews/new",
        entry__area=book.area,
        entry__name="Truck 4",
        entry__happened=["2026-01-05", ""],
        entry__members__0__person=crew,
    )
    address = made.location.partition("?")[0]
    changed = fill_in(
        admin,
        f"{address}/change",
        entry__happened=["2026-02-02", ""],
        entry__joined__0__person=officer,
        entry__left__0__person=crew,
        entry__left__0__until_on="2026-02-01",
    )
    assert (made.status_code, changed.status_code) == (303, 303)
    page = admin.get(address).text
    assert NAMES.findall(page) == ["M. Aldous", "P. Lindqvist"]
    assert "1 Feb 2026" in page
    listed = re.sub(r"<[^>]+>|\s+", " ", admin.get("/crews").text)
    assert re.search(r"Truck 4 +Eastmarsh +our own +P. Lindqvist", listed)


def test_the_days_of_who_was_in_a_crew_are_told_as_first_and_last(book: m.Book, admin: FlaskClient) -> None:
    member = {"key": "m1", "person": str(book.crew.person), "from_on": "2025-02-03", "until_on": "2026-12-31"}
    made = m.crew(book, members=[member])
    book.say(made)
    page = admin.get(f"/crews/{made['id']}").text
    assert "M. Aldous, from 3 Feb 2025, until 31 Dec 2026" in page


def test_a_person_under_two_records_shows_the_evaluations_of_both_and_what_either_stopped(book, admin):
    kept, other = m.person("J. Farrow"), m.person("Jo Farrow")
    book.say(kept, other, m.qualified(kept["id"]), m.qualified(other["id"], task="weld"), m.unqualified(other["id"]))
    leak = m.leak(book)
    book.say(leak, m.attempt(leak["id"], people=[{"key": "p1", "person": other["id"], "task": "weld"}]))
    book.say(d.made_one(kept["id"], other["id"]))
    pages = {id: admin.get(f"/people/{id}").text for id in (kept["id"], other["id"])}
    for id, page in pages.items():
        clamp, weld = ("this one", "Jo Farrow") if id == kept["id"] else ("J. Farrow", "this one")
        days = "5 Jan 2026 5 Jan 2027 Observation on the job"
        assert sorted(rows_of(page)[:2]) == [
            f"install clamp Suspended from 1 Feb 2026 {days} {clamp}",
            f"weld Valid {days} {weld} 1 time at a repair, last 5 Mar 2026",
        ]
    assert f'href="/people/{other["id"]}#e-' in pages[kept["id"]]
