"""What lies in one area is told to nobody who sees another area alone, or a part in which nothing is: gone through for
every question to the book, with whatever in it a question may name."""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import insert, select

from repairlog.access import EVERYTHING, Part, Scope
from repairlog.entries.ids import read_id
from repairlog.records.beside.looked_at import list_look
from repairlog.records.queries.calls import WantedCalls
from repairlog.records.queries.companies import WantedCompanies
from repairlog.records.queries.digs_listed import WantedDigs
from repairlog.records.queries.due import WantedDue
from repairlog.records.queries.gaps import WantedGaps
from repairlog.records.queries.instruments_listed import WantedInstruments
from repairlog.records.queries.leaks import Wanted
from repairlog.records.queries.looked_at import WantedLooks, looks
from repairlog.records.queries.people_listed import WantedPeople
from repairlog.records.queries.places_listed import WantedPlaces
from repairlog.records.queries.stores import LotsWanted
from repairlog.records.queries.work import WantedWork
from repairlog.records.store import open_store
from repairlog.records.tables.beside import STALE
from repairlog.records.tables.facts import ENTRY, OF_KIND, STREET, SUBJECT
from repairlog.records.tables.worked import LEAK
from tests.house.test_scopes import questions
from tests.makers import book as m
from tests.makers import full_book
from tests.makers.full_book import FullBook
from tests.makers.rulebooks import RULEBOOKS

ON = date(2026, 3, 5)
DAYS = {"on": ON, "soon_until": ON}
ASKED: dict[str, Any] = {
    "Wanted": Wanted(),
    "LotsWanted": LotsWanted(),
    "WantedCalls": WantedCalls(),
    "WantedCompanies": WantedCompanies(on=ON),
    "WantedDigs": WantedDigs(),
    "WantedDue": WantedDue(),
    "WantedGaps": WantedGaps(),
    "WantedInstruments": WantedInstruments(**DAYS),
    "WantedLooks": WantedLooks(),
    "WantedPeople": WantedPeople(**DAYS),
    "WantedPlaces": WantedPlaces(),
    "WantedWork": WantedWork(),
}
"""Everything is asked for, by what a question takes."""

OF_NO_AREA = {
    "rulebook_with": "texts of rules are everybody's",
    "operator_zone": "there is one operator",
    "operator_of": "there is one operator",
    "streets_named": "a street is a name",
    "streets_shown": "a street is a name",
    "streets_as_one": "a street is a name",
    "places_as_one": "ids that whoever asks may see are put together",
    "sameness": "ids that whoever asks may see are put together",
    "one_with": "ids that whoever asks may see are put together",
    "named": "whom and what a record names is part of what it says",
    "called_themselves": "whom and what a record names is part of what it says",
    "names_of": "whom a record names is part of what it says",
    "qualifications_of": "of people who were found in scope before",
    "companies_listed": "a company is of no area; what is written on others is tried in test_companies",
    "companies_not_on_the_books": "a company is of no area; what is written on others is tried in test_companies",
    "company_seen": "a company is of no area",
    "company_names": "a company is of no area",
    "companies_called": "a company is of no area",
    "set_up": "people are counted wherever they work",
}
"""Questions that are not about what lies in an area, each with why."""

TO_CHOOSE_FROM = {"instruments_of", "lots_numbered", "lots_of", "lots_with", "lots_in_stores", "places_of"}
TO_CHOOSE_FROM |= {"shelves_in", "shelves_listed", "shelf_with"}
"""What lies in an area where a company works is there for its people to choose from."""

OF_THE_AREA = {"adopted", "authorities", "areas", "confirmations", "streets_made_one"}
"""What holds in an area is told to whoever sees any part of it."""


def _about_areas(*left_out: str) -> list[Any]:
    """The questions that are about what lies in an area, without those of these names."""
    return [each for each in questions() if each.values[0].__name__ not in {*OF_NO_AREA, *left_out}]


@dataclass(frozen=True)
class Apart:
    """The full book. `may`: by name, whatever a question may ask about; `there`: the ids of all that lies in areas, and
    ids and names of who works in one alone; `bare`: an area more, in which nothing is."""

    book: m.Book
    may: dict[str, list[Any]]
    there: frozenset[str]
    bare: str

    def named_in(self, told: list[Any]) -> set[str]:
        """What of that stands in these answers."""
        return {id for id in self.there if id in repr(told)}

    def answers(self, question: Any, scope: Scope) -> list[Any]:
        """What the question is answered with for that scope, where it is answered with anything."""
        named = [p for p in inspect.signature(question).parameters.values() if p.kind is p.KEYWORD_ONLY]
        values = [[ASKED[str(p.annotation)]] if str(p.annotation) in ASKED else self.may[p.name] for p in named]
        with self.book.store.reading() as tx:
            asked = [dict(zip([p.name for p in named], chosen, strict=True)) for chosen in product(*values)]
            return [answer for each in asked if (answer := question(scope, tx, **each))]


@pytest.fixture(scope="module")
def apart(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Apart]:
    file = tmp_path_factory.mktemp("apart") / "repairlog.db"
    file.write_bytes(sqlite_template.read_bytes())
    store = open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS)
    full = full_book.filled(store)
    bare = {"kind": "area_opened", "id": m.new_id(), "name": "Bare Moor", "code": "BM", "zone": "America/New_York"}
    inspector, days = m.person("I. Hallam"), {"period_from_on": "2026-03-01", "period_until_on": "2026-03-31"}
    role = m.role_given(inspector["id"], "inspector", area=full.book.area, until_on="2026-12-31", **days)
    listed = {"key": "n1", "what": "list", "number": "OLD-7"}
    full.book.say(bare | {"happened": "2025-01-02"}, inspector, role, m.leak(full.book, outside_numbers=[listed]))
    list_look(store, person=read_id(inspector["id"]), at=m.RECEIVED, page="leaks.page", address="/leaks", subject=None)
    stale = {"subject_id": read_id(full.ids["ended"]), "stale_since": m.RECEIVED, "because_id": read_id(role["id"])}
    with store.writing() as tx:
        tx.connection.execute(insert(STALE).values(stale))
    people = {str(each.person) for each in (full.book.crew, full.book.supervisor)}
    yield _apart(full, bare=bare["id"], people={inspector["id"], *people, "I. Hallam", "M. Aldous", "D. Okoro"})
    store.close()


def _apart(full: FullBook, *, bare: str, people: set[str]) -> Apart:
    with full.book.store.reading() as tx:
        subjects = tx.connection.execute(select(SUBJECT.c.id, SUBJECT.c.kind, SUBJECT.c.area_id)).all()
        entries, streets, digests, lots, numbers = (
            list(tx.connection.execute(select(column)).scalars())
            for column in (
                ENTRY.c.id,
                STREET.c.id,
                OF_KIND["attached"].c.digest,
                OF_KIND["lot_received"].c.lot_number,
                LEAK.c.number,
            )
        )
    ids = {kind: [row.id for row in subjects if row.kind == kind] for kind in {row.kind for row in subjects}}
    looks = [look.id for look in _looks(full)]
    may = {name: ids[name] for name in ("area", "leak", "call", "company", "person", "instrument", "shelf")}
    may |= {"names": [["Dale Pipe Co", "Saltmarsh Gas"]]}
    may |= {"leaks": [ids["leak"]], "ids": [[*entries, *streets], [read_id(full.book.area)]]}
    may |= {
        "id": [*ids["person"], *ids["lot"], *ids["place"], *streets, *looks],
        "numbers": [[*lots, *numbers, "OLD-7"]],
    }
    may |= {"people": [ids["person"]], "instruments": [ids["instrument"]]}
    may |= {"digests": [digests], "digest": [m.PRACTICE], "days": [dict.fromkeys(ids["area"], ON)]}
    may |= {
        "named": ["M. Aldous"],
        "part": ["a"],
        "text": ["truck"],
        "kind": ["person", "crew", "instrument", "lot", "place"],
        "beyond": [None],
        "after": [None],
        "number": [""],
    }
    may |= {"on": [ON], "at": [datetime(2026, 3, 6, tzinfo=UTC)], "since": [m.RECEIVED - timedelta(90)], "most": [500]}
    there = {str(row.id) for row in subjects if row.area_id or row.kind == "area"} | people
    return Apart(full.book, may, frozenset(there - {bare}), bare)


def _looks(full: FullBook) -> list[Any]:
    with full.book.store.reading() as tx:
        return looks(EVERYTHING, tx, looked=WantedLooks(), beyond=None, most=5)


@pytest.mark.parametrize("question", _about_areas())
def test_what_is_in_one_area_is_told_to_nobody_who_sees_another_alone(apart: Apart, question: Any) -> None:
    everything = apart.answers(question, EVERYTHING)
    assert everything, "the book holds nothing that this question asks about"
    told = apart.answers(question, Scope(areas=frozenset([read_id(apart.bare)])))
    assert apart.named_in(told) == set()
    assert told == [] or apart.named_in(everything), "counted"


@pytest.mark.parametrize("question", _about_areas(*OF_THE_AREA))
def test_of_an_area_nothing_is_told_to_who_sees_a_part_of_it_in_which_nothing_is(apart: Apart, question: Any) -> None:
    area = read_id(apart.book.area)
    nobody_s, long_ago = (
        Part(area=area, company="Nobody and Sons"),
        Part(area=area, from_on="2001-01-01", until_on="2001-12-31"),
    )
    assert apart.answers(question, Scope(parts=frozenset([long_ago]))) == []
    if question.__name__ not in TO_CHOOSE_FROM:
        assert apart.answers(question, Scope(parts=frozenset([nobody_s]))) == []
