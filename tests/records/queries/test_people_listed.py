"""Who is found among people, in whose scope, and how they are paged: on either database."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.crews import crews_now
from repairlog.records.queries.people_listed import WantedPeople, people_listed, person_seen
from repairlog.records.queries.rests_on import done_by, uses_of, work_of
from repairlog.records.store import Store
from tests.makers import book as m


@pytest.fixture
def book(store: Store) -> m.Book:
    """M. Aldous was qualified to squeeze off until February; K. Ames, of another company, has left."""
    book = m.opened(store)
    ames, other = m.person("K. Ames", company="Dale Pipe Co"), m.person("Z. Hale")
    role = {"key": "r1", "role": "crew", "area": book.other_area, "from_on": "2025-02-03"}
    there = m.person("B. Hill", roles=[role])
    crew = str(book.crew.person)
    book.say(
        ames,
        other,
        there,
        {"kind": "person_left", "id": m.new_id(), "subject": ames["id"], "happened": "2026-02-01"}
        | {"until_on": "2026-02-28"},
        m.qualified(crew, task="Squeeze off", until_on="2026-02-10"),
        m.qualified(crew, task="install clamp", until_on="2026-03-20"),
        m.qualified(str(book.supervisor.person), task="squeeze off", until_on="2026-02-10"),
        m.qualified(str(book.supervisor.person), task="SQUEEZE OFF", happened="2026-02-01"),
        m.crew(book),
    )
    return book


def found(book: m.Book, scope: Scope = EVERYTHING, **asked: Any) -> list[str]:
    wanted = {"on": date(2026, 3, 5), "soon_until": date(2026, 4, 4)} | asked
    with book.store.reading() as tx:
        rows = people_listed(scope, tx, asked=WantedPeople(**wanted), after=None, most=50)
    return [row.name for row in rows]


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ({}, ["B. Hill", "D. Okoro", "M. Aldous", "P. Lindqvist", "R. Tolland", "Z. Hale"]),
        ({"name": "AL"}, ["M. Aldous", "Z. Hale"]),
        ({"left": True}, ["K. Ames"]),
        ({"on": date(2026, 2, 28), "company": "pipe"}, ["K. Ames"]),
        ({"on": date(2026, 3, 1), "company": "pipe"}, []),
        ({"role": "crew"}, ["B. Hill", "M. Aldous"]),
        ({"role": "crew", "on": date(2025, 1, 31)}, ["M. Aldous"]),
        ({"qualified": "lapsed"}, ["M. Aldous"]),
        ({"qualified": "lapsed", "on": date(2026, 2, 10)}, []),
        ({"qualified": "ends_soon"}, ["M. Aldous"]),
        ({"qualified": "ends_soon", "soon_until": date(2026, 3, 19)}, []),
        ({"qualified": "valid", "task": "squeeze"}, ["D. Okoro"]),
        ({"task": "squeeze"}, ["D. Okoro", "M. Aldous"]),
        ({"qualified": "none", "role": "crew"}, ["B. Hill"]),
        ({"name": "%"}, []),
    ],
)
def test_the_people_that_fit_are_found(book: m.Book, asked: dict[str, Any], names: list[str]) -> None:
    assert found(book, **asked) == names


def test_an_area_and_a_crew_are_asked_for_by_id(book: m.Book) -> None:
    with book.store.reading() as tx:
        crew = crews_now(EVERYTHING, tx)[0].id
    assert found(book, area=read_id(book.other_area)) == ["B. Hill", "P. Lindqvist", "R. Tolland"]
    assert (found(book, crew=crew), found(book, crew=crew, on=date(2025, 2, 2))) == (["M. Aldous"], [])


def test_a_scope_of_one_area_shows_who_has_a_role_there_and_who_has_none(book: m.Book) -> None:
    here = Scope(areas=frozenset({read_id(book.area)}))
    assert found(book, here) == ["D. Okoro", "M. Aldous", "P. Lindqvist", "R. Tolland", "Z. Hale"]
    with book.store.reading() as tx:
        assert person_seen(here, tx, person=book.crew.person) == "M. Aldous"
        assert person_seen(Scope(areas=frozenset({read_id(book.other_area)})), tx, person=book.crew.person) is None


def test_pages_follow_each_other_without_a_person_lost_or_doubled(book: m.Book) -> None:
    book.say(*(m.person("Twin") for _ in range(3)))
    wanted = WantedPeople(on=date(2026, 3, 5), soon_until=date(2026, 3, 5))
    read: list[Any] = []
    with book.store.reading() as tx:
        while page := people_listed(
            EVERYTHING, tx, asked=wanted, after=(read[-1].name, read[-1].id) if read else None, most=2
        ):
            read += page
    assert ([row.name for row in read], len({row.id for row in read})) == (sorted(row.name for row in read), 9)


def test_what_a_person_did_is_counted_by_task_and_says_where_nothing_valid_stood_for_it(book: m.Book) -> None:
    leak = m.leak(book)
    people = [{"key": "p1", "person": str(book.crew.person), "task": "squeeze off"}]
    people += [{"key": "p2", "person": str(book.crew.person), "task": "install clamp"}]
    attempt = m.attempt(leak["id"], happened="2026-03-03 12:00", people=people)
    number = book.say(leak, attempt)[0].number
    person = book.crew.person
    with book.store.reading() as tx:
        work = work_of(EVERYTHING, tx, people=[person], most=9)
        done = done_by(EVERYTHING, tx, people=[person])
    assert {(row.number, row.on, row.what, row.gap) for row in work} == {
        (number, "2026-03-03", "squeeze off", "qualification_not_on_the_books"),
        (number, "2026-03-03", "install clamp", ""),
    }
    assert [(row.task, row.times, row.last_on) for row in done] == [
        ("install clamp", 1, "2026-03-03"),
        ("squeeze off", 1, "2026-03-03"),
    ]


def test_where_an_instrument_was_used_is_told_once_an_entry_with_what_does_not_hold_up(book: m.Book) -> None:
    meter, leak = m.instrument(book), m.leak(book)
    reading = {"key": "r1", "place": "h1", "value": "4 %gas", "gas": "methane", "instrument_used": meter["id"]}
    visit = m.visit(leak["id"], instrument_used=meter["id"], readings=[reading, reading | {"key": "r2"}])
    number = book.say(meter, leak, visit)[1].number
    with book.store.reading() as tx:
        rows = uses_of(EVERYTHING, tx, instruments=[read_id(meter["id"])], most=9)
    assert [(row.number, row.what, row.gap) for row in rows] == [(number, "visit", "calibration_not_on_the_books")]
