"""A number that was joined to another counts once wherever leaks are counted, owed or raised, and is found by its own
number; what its joining had settled is owed again when that is taken back."""

from __future__ import annotations

import csv
import io

import pytest

from repairlog.access import EVERYTHING, Actor, Membership
from repairlog.entries.ids import read_id
from repairlog.records.queries.leaks import Wanted, how_many_leaks
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import site as made
from tests.makers.site import Site
from tests.web.everyone.read import rows_of, text_of

THIS, OTHER = "ES-26-0001", "ES-26-0002"


@pytest.fixture
def two(sqlite_store: Store) -> tuple[Site, str, str, str]:
    """Two numbers of one hazard in one street, both graded and given to a crew; the first is joined to the second."""
    site = made.site(m.opened(sqlite_store))
    book = site.book
    opened = [m.leak(book, house_number=number) for number in ("14", "16")]
    this, other = (str(each["id"]) for each in opened)
    given = [m.given(id, person=str(book.crew.person), named=None) for id in (this, other)]
    given = [{name: value for name, value in each.items() if value} for each in given]
    end = m.ending(this, how="joined", joined_to=other, happened="2026-03-04 09:00")
    book.say(m.adopted(book.area), *opened, *[m.grade(id) for id in (this, other)], *given, end)
    return site, this, other, str(end["id"])


def everybody(book: m.Book) -> dict[str, Actor]:
    """Whoever reads lists of leaks, by role."""
    inspector = m.person("V. Marsh")
    days = {"until_on": "2999-12-31", "period_from_on": "2026-03-05", "period_until_on": "2026-03-31"}
    manager = m.person("H. Brandt")
    book.say(inspector, manager, m.role_given(inspector["id"], "inspector", area=book.area, **days))
    book.say(m.role_given(manager["id"], "manager"))
    of = {"inspector": inspector["id"], "manager": manager["id"]}
    actors = {
        role: Actor(
            person=read_id(id), sure="password", memberships=(Membership(role=role, area=None, from_on="2026-03-02"),)
        )
        for role, id in of.items()
    }
    return {"crew": book.crew, "supervisor": book.supervisor, "officer": book.officer, **actors}


def numbers(page: str) -> list[str]:
    return [number for row in rows_of(page) for number in (THIS, OTHER) if number in row]


def listed(text: str, column: str) -> list[str]:
    return [row[column] for row in csv.DictReader(io.StringIO(text.removeprefix("\ufeff")))]


def test_it_is_open_owed_and_in_hand_under_the_other_number_alone(two: tuple[Site, str, str, str]) -> None:
    site, _this, _other, _end = two
    officer = site.client(site.book.officer)
    for address in ("/leaks?status=open", "/due", "/records?status=open", "/work"):
        assert set(numbers(officer.get(address).text)) == {OTHER}, address
    for address in ("/leaks?status=open&as=csv", "/due?as=csv", "/records?status=open&as=csv"):
        text = officer.get(address).text
        assert (OTHER in text, THIS in text) == (True, False), address
    with site.book.store.reading() as tx:
        assert how_many_leaks(EVERYTHING, tx, where=Wanted(status="open")) == 1
    assert THIS not in officer.get("/gaps").text
    street = next(row for row in rows_of(officer.get("/places").text) if "Street" in row)
    assert street.split()[-2:] == ["1", "1"], "one leak, one of them open"


def test_it_is_found_by_its_own_number_and_says_how_it_goes_on(two: tuple[Site, str, str, str]) -> None:
    site, this, _other, _end = two
    officer = site.client(site.book.officer)
    for address in (f"/leaks?number={THIS}", f"/records?number={THIS}"):
        (row,) = rows_of(officer.get(address).text)
        assert ("joined to another number" in row.casefold()) is True
    assert listed(officer.get(f"/leaks?number={THIS}&as=csv").text, "Number") == [THIS]
    assert "goes on there" in officer.get(f"/leaks/{this}").text


def test_on_the_page_of_the_day_no_role_meets_it(two: tuple[Site, str, str, str]) -> None:
    site, _this, _other, _end = two
    for role, who in everybody(site.book).items():
        page = site.client(who).get("/today").text
        assert THIS not in page, role
        if role == "crew":
            assert OTHER in page


def test_an_inspector_of_days_after_it_was_joined_counts_the_other_alone(two: tuple[Site, str, str, str]) -> None:
    site, _this, _other, _end = two
    page = site.client(everybody(site.book)["inspector"]).get("/leaks").text
    assert numbers(page) == [OTHER]


@pytest.mark.parametrize("how", ["void", "reopened"])
def test_what_its_joining_had_settled_is_owed_again_when_that_is_taken_back(
    two: tuple[Site, str, str, str], how: str
) -> None:
    site, this, _other, end = two
    again = m.reopened(this, happened="2026-03-05 08:00") if how == "reopened" else m.void(end)
    site.book.say(again)
    officer = site.client(site.book.officer)
    for address in ("/leaks?status=open", "/due", "/work"):
        assert set(numbers(officer.get(address).text)) == {THIS, OTHER}, address
    street = next(row for row in rows_of(officer.get("/places").text) if "Street" in row)
    assert street.split()[-2:] == ["2", "2"]


def test_numbers_in_a_ring_stand_in_every_list(two: tuple[Site, str, str, str]) -> None:
    site, this, other, _end = two
    site.book.say(m.ending(other, how="joined", joined_to=this))
    officer = site.client(site.book.officer)
    for address in ("/leaks?status=open", "/due", "/work", "/gaps"):
        assert set(numbers(officer.get(address).text)) == {THIS, OTHER}, address
    page = text_of(officer.get("/gaps").text)
    assert page.count("leads back to this one, so that it would be open under none: it stays open.") == 2
