"""A page asks the book as many questions where it lists five hundred of everything as where it lists one.

Every page of the site is gone through, so that a new one is, too, as soon as it has its address among `ADDRESSES`.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest
import time_machine
from flask.testing import FlaskClient

from repairlog.access import Actor
from repairlog.entries.ids import read_id
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers import full_book, many_of_each
from tests.makers.addresses import ADDRESSES, pages
from tests.makers.longest import longest_leak
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.sent_back import refused_to_crew
from tests.makers.site import Site, site
from tests.records.queries.test_leaks_plan import run

FEW, MANY = 1, 500
DAY_AFTER = m.RECEIVED + timedelta(days=1)
LIST = re.compile(r"\((?:\(?\?(?:, \?)*\)?(?:, )?)+\)")
"""Values in a row, however many."""

FURTHER = {
    "dispatcher": {},
    "manager": {},
    "storekeeper": {},
    "inspector": {"until_on": "2026-12-31", "period_from_on": "2026-03-01", "period_until_on": "2026-03-31"},
    "contractor": {"role": "crew", "company": many_of_each.CONTRACTOR},
}
"""Roles that the full book gives to nobody, and what bounds them."""

FILES = ("/calls", "/leaks", "/due", "/gaps", "/stores", "/people", "/instruments", "/records", "/looked-at")
BOOKS = ("/crews?text=truck", "/places", "/digs", "/work", "/stores/shelves", "/areas", "/sign-ins", "/unfinished")
"""Lists that can be taken away; of the books, by whoever keeps them."""

WORKED_FROM = ("/today", "/calls", "/leaks", "/due", "/gaps", "/stores", "/records?by=ended&from=2026-01-01")
"""Lists that hang on who reads them: by their roles, their areas, and the parts of those that they see."""


@dataclass(frozen=True)
class Walk:
    """The site on a book with so many of everything. `browsers`: by role, of who holds it; None: of nobody."""

    site: Site
    browsers: dict[str | None, FlaskClient]
    ids: dict[str, str]

    def statements(self, address: str, *, role: str | None) -> tuple[int, Counter[str]]:
        """What the page is answered with, and how often it runs each statement."""
        with time_machine.travel(DAY_AFTER, tick=False), run(self.site.book.store) as seen:
            answer = self.browsers[role].get(address.format_map(self.ids))
            answer.get_data()  # a file is written as it is read
        return answer.status_code, Counter(LIST.sub("(?)", sql) for sql, _parameters in seen)


def walk_at(file: Path, *, how_many: int) -> Walk:
    """On a book of its own, migrated already."""
    full = full_book.filled(open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS))
    book = full.book
    unfinished = str(of_person(book.store, book.crew.person)[0].id)
    refused = refused_to_crew(book, full.ids["ended"])
    many_of_each.add(full, how_many=how_many)
    ids = full.ids | {"longest": longest_leak(book), "unfinished": unfinished, "refused": refused}
    people = {"crew": book.crew, "supervisor": book.supervisor, "officer": book.officer, "administrator": book.everyone}
    for role, bounds in FURTHER.items():
        person = m.person(f"the {role}")
        given = m.role_given(person["id"], **{"role": role, "area": book.area, **bounds})
        book.say(person, given)
        people[role] = Actor(person=read_id(person["id"]), sure="password")
    here = site(book)
    with time_machine.travel(DAY_AFTER, tick=False):
        browsers = {role: here.client(actor) for role, actor in people.items()}
    return Walk(here, {None: here.app.test_client(), **browsers}, ids)


@pytest.fixture(scope="module")
def walks(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Walk, Walk]]:
    """With one of everything, and with five hundred."""
    files = [tmp_path_factory.mktemp("walk") / "repairlog.db" for _ in (FEW, MANY)]
    for file in files:
        file.write_bytes(sqlite_template.read_bytes())
    made = [walk_at(file, how_many=how_many) for file, how_many in zip(files, (FEW, MANY), strict=True)]
    yield made[0], made[1]
    for each in made:
        each.site.book.store.close()


def more(walks: tuple[Walk, Walk], address: str, *, role: str | None) -> dict[str, tuple[int, int]]:
    """The statements that the page runs oftener where there is more. Once more is not oftener: where something
    that is listed names what nothing named before, what is needed of that is read."""
    (few_status, few), (many_status, many) = (walk.statements(address, role=role) for walk in walks)
    assert (few_status, many_status) in ((200, 200), (403, 403)), address
    assert few or role is None, "no statement was seen"
    return {sql: (few[sql], times) for sql, times in many.items() if times > few[sql] + 1}


@pytest.mark.parametrize("endpoint", ADDRESSES)
def test_a_page_takes_as_many_statements_at_500_of_everything_as_at_one(walks, endpoint):
    found = {each: more(walks, each, role=pages()[endpoint].role) for each in ADDRESSES[endpoint]}
    assert {address: statements for address, statements in found.items() if statements} == {}


@pytest.mark.parametrize("role", ["supervisor", "crew", "administrator", *FURTHER])
def test_what_is_listed_takes_as_many_for_whoever_reads_it(walks, role):
    found = {each: more(walks, each, role=role) for each in WORKED_FROM}
    assert {address: statements for address, statements in found.items() if statements} == {}


@pytest.mark.parametrize("address", FILES)
def test_a_file_of_the_whole_list_takes_as_many(walks, address):
    assert more(walks, f"{address}?as=csv", role="officer") == {}


@pytest.mark.parametrize("address", BOOKS)
def test_a_file_of_a_list_of_the_books_takes_as_many(walks, address):
    assert more(walks, f"{address}{'&' if '?' in address else '?'}as=csv", role="administrator") == {}


@pytest.mark.parametrize("address", ["/people?name=C-2026-55", "/instruments?text=C-2026-55", "/crews?text=C-2026-55"])
def test_a_list_found_by_a_number_that_others_know_takes_as_many(walks, address):
    assert more(walks, address, role="administrator") == {}
