"""Sources of a leak and the repairs attempted on them, as they stand."""

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.sources import AttemptRow, SourceRow, attempts_of, sources_of
from repairlog.records.store import Store
from repairlog.trade.attempts import Attempt
from tests.makers import book as m


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def test_sources_and_attempts_come_numbered_as_they_happened(book: m.Book) -> None:
    leak = m.leak(book)
    on = leak["id"]
    first, second = m.source(on), m.source(on, happened="2026-03-03 09:30", component="")
    failed = m.attempt(on, source=first["id"], happened="2026-03-05 09:00", outcome="not_tight")
    tight = m.attempt(on, source=first["id"], happened="2026-03-05 10:00", method="", outcome="not_tested")
    test = m.test_of(on, tight["id"])
    book.say(leak, first, second, tight, failed, test, m.review(on, tight["id"]))
    with book.store.reading() as tx:
        assert sources_of(EVERYTHING, tx, leak=read_id(on)) == [
            SourceRow(
                id=read_id(first["id"]),
                number=1,
                part="service",
                component="threaded tee",
                material="steel",
                size="3/4 in",
            ),
            SourceRow(
                id=read_id(second["id"]), number=2, part="service", component="", material="steel", size="3/4 in"
            ),
        ]
        found = attempts_of(EVERYTHING, tx, leak=read_id(on))
    assert found == [
        AttemptRow(
            attempt=Attempt(
                id=read_id(failed["id"]),
                source=read_id(first["id"]),
                number=1,
                lasting="permanent",
                on="2026-03-05",
                outcome="not_tight",
                decided_by=None,
                review="waiting",
            ),
            method="bolt_on_clamp",
        ),
        AttemptRow(
            attempt=Attempt(
                id=read_id(tight["id"]),
                source=read_id(first["id"]),
                number=2,
                lasting="permanent",
                on="2026-03-05",
                outcome="tight",
                decided_by=read_id(test["id"]),
                review="accepted",
            ),
            method="",
        ),
    ]


def test_those_of_a_leak_outside_the_scope_are_not_told(book: m.Book) -> None:
    leak = m.leak(book)
    book.say(leak, m.source(leak["id"]), m.attempt(leak["id"]))
    told = []
    with book.store.reading() as tx:
        for area in (book.area, book.other_area):
            scope = Scope(areas=frozenset([read_id(area)]))
            told.append([len(ask(scope, tx, leak=read_id(leak["id"]))) for ask in (sources_of, attempts_of)])
    assert told == [[1, 1], [0, 0]]
