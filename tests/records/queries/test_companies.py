"""Companies as they are listed, and what bears the name of one: each as far as the scope of who asks shows it."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

import pytest

from repairlog.access import EVERYTHING, Part, Scope
from repairlog.records.queries.companies import (
    ListedCompany,
    WantedCompanies,
    WrittenName,
    companies_called,
    companies_listed,
    companies_not_on_the_books,
    company_names,
    company_seen,
)
from repairlog.records.queries.of_company import of_company
from repairlog.records.store import Store
from repairlog.trade.company import Term
from tests.makers import book as m
from tests.makers import companies
from tests.makers import digs as d

DALE, WEIR = companies.company(**companies.also("Dale Pipes")), companies.company("Weir Lab", what="laboratory")
AMES, BRAND, COLE = (
    m.person("K. Ames", company="DALE  pipe co"),
    m.person("S. Brand", company="Dale Pipes"),
    m.person("T. Cole", company="Stallard"),
)


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """Dale Pipe Co left on 3 March and is back from 1 April; the laboratory stays. Two people are written as Dale's,
    each in another way, one of them in the other area; one of a company that is not on the books."""
    book = m.opened(sqlite_store)
    crew = m.crew(book, company="dale pipes")
    elsewhere = m.crew(book, area=book.other_area, name="Truck 6", company="Stallard", members=[])
    book.say(DALE, WEIR, companies.left(DALE["id"]), companies.back(DALE["id"]), AMES, BRAND, COLE, crew, elsewhere)
    book.say(
        m.role_given(AMES["id"], area=book.area, company="Dale Pipe Co"),
        m.role_given(BRAND["id"], area=book.other_area, company=" stallard"),
        d.number(WEIR["id"], what="licence", number="L-20"),
    )
    return book


def asked(book: m.Book, scope: Scope = EVERYTHING, **fields: Any) -> list[ListedCompany]:
    wanted = WantedCompanies(**{"on": date(2026, 3, 3)} | fields)
    with book.store.reading() as tx:
        return companies_listed(scope, tx, asked=wanted, after=None, most=50)


def names(found: list[ListedCompany]) -> list[str]:
    return [each.name for each in found]


def test_a_company_is_listed_with_its_terms_and_whatever_is_written_as_its_own(book: m.Book) -> None:
    left = Term(entry=m.read_id(DALE["id"]), from_on="2025-02-03", until_on="2026-03-03")
    back = next(each.terms[1].entry for each in asked(book) if len(each.terms) == 2)
    dale, weir = asked(book)
    assert dale == ListedCompany(
        id=m.read_id(DALE["id"]),
        name="Dale Pipe Co",
        what="contractor",
        also_named=("Dale Pipes",),
        terms=(left, Term(entry=back, from_on="2026-04-01", until_on="")),
        people=2,
        crews=1,
    )
    assert (weir.name, weir.people, weir.crews) == ("Weir Lab", 0, 0)


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ({"text": "pipes"}, ["Dale Pipe Co"]),
        ({"text": "WEIR"}, ["Weir Lab"]),
        ({"text": "l 20"}, ["Weir Lab"]),
        ({"text": "l-2"}, []),
        ({"what": "laboratory"}, ["Weir Lab"]),
        ({"works": "now", "on": date(2025, 2, 2)}, []),
        ({"works": "now"}, ["Dale Pipe Co", "Weir Lab"]),
        ({"works": "now", "on": date(2026, 3, 4)}, ["Weir Lab"]),
        ({"works": "not", "on": date(2026, 3, 31)}, ["Dale Pipe Co"]),
        ({"works": "not", "on": date(2026, 4, 1)}, []),
    ],
)
def test_a_list_of_companies_is_filtered_on_the_day_that_is_looked_at(
    book: m.Book, wanted: dict[str, Any], found: list[str]
) -> None:
    assert names(asked(book, **wanted)) == found


def test_a_list_goes_on_after_the_last_of_a_page_and_one_put_on_in_error_is_not_in_it(book: m.Book) -> None:
    wrong = companies.company("Ash Works")
    book.say(wrong, m.void(wrong["id"]))
    wanted = WantedCompanies(on=date(2026, 3, 3))
    with book.store.reading() as tx:
        first = companies_listed(EVERYTHING, tx, asked=wanted, after=None, most=1)
        edge = (first[0].name, first[0].id)
        assert names(companies_listed(EVERYTHING, tx, asked=wanted, after=edge, most=5)) == ["Weir Lab"]
        assert (names(first), company_names(EVERYTHING, tx)) == (["Dale Pipe Co"], ["Dale Pipe Co", "Weir Lab"])
        assert company_seen(EVERYTHING, tx, company=m.read_id(wrong["id"])) == "Ash Works"


def test_names_that_are_no_company_s_are_told_once_with_all_that_bears_them(book: m.Book) -> None:
    with book.store.reading() as tx:
        found = companies_not_on_the_books(EVERYTHING, tx)
        in_area = companies_not_on_the_books(Scope(areas=frozenset([m.read_id(book.area)])), tx)
    assert found == [WrittenName(name="Stallard", people=1, crews=1, roles=1)]
    assert in_area == [WrittenName(name="Stallard", people=1)]  # T. Cole has no role, and so is everybody's


def test_what_bears_a_company_s_name_is_told_as_far_as_the_scope_shows_it(book: m.Book) -> None:
    def bearing(scope: Scope) -> tuple[list[str], ...]:
        with book.store.reading() as tx:
            found = of_company(scope, tx, names=["Dale Pipe Co", "Dale Pipes"], most=9)
        assert found is not None
        return [p.name for p in found.people], [c.name for c in found.crews], [r.name for r in found.roles]

    area = m.read_id(book.area)
    assert bearing(EVERYTHING) == (["K. Ames", "S. Brand"], ["Truck 4"], ["K. Ames"])
    assert bearing(Scope(areas=frozenset([area]))) == (["K. Ames"], ["Truck 4"], ["K. Ames"])
    # who may see what goes by the name as it is written: the other spelling is shown to nobody who is bound to this one
    assert bearing(Scope(parts=frozenset([Part(area=area, company="dale pipes")]))) == (["S. Brand"], ["Truck 4"], [])


def test_an_instrument_that_its_people_put_on_the_books_is_told_of(book: m.Book) -> None:
    theirs, ours = m.instrument(book, mark="D-1"), m.instrument(book, mark="G-1")
    book.say(theirs | {"did": [{"key": "d1", "person": AMES["id"]}]}, ours)
    with book.store.reading() as tx:
        found = of_company(EVERYTHING, tx, names=["Dale Pipe Co"], most=9)
        nothing = of_company(Scope(areas=frozenset([m.read_id(book.other_area)])), tx, names=["Weir Lab"], most=9)
    assert found is not None
    assert ([each.mark for each in found.brought], nothing) == (["D-1"], None)


@pytest.mark.parametrize(
    ("company", "found"), [("DALE PIPES", ["Dale Pipe Co"]), ("Dale", []), ("weir lab", ["Weir Lab"])]
)
def test_whoever_sees_one_company_s_work_sees_that_company_alone(book: m.Book, company: str, found: list[str]) -> None:
    scope = Scope(parts=frozenset([Part(area=None, company=company)]))
    assert names(asked(book, scope)) == found
    with book.store.reading() as tx:
        seen = {name: company_seen(scope, tx, company=m.read_id(of["id"])) for name, of in _BOTH.items()}
    assert [name for name, each in seen.items() if each] == found


_BOTH = {"Dale Pipe Co": DALE, "Weir Lab": WEIR}


def test_a_name_leads_to_the_company_that_bears_it(book: m.Book) -> None:
    with book.store.reading() as tx:
        found = companies_called(EVERYTHING, tx, names=["dale  PIPES", "Weir Lab", "Stallard", ""])
    assert found == {"dale  PIPES": UUID(DALE["id"]), "Weir Lab": UUID(WEIR["id"])}
