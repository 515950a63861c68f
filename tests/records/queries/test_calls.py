"""The list of calls as a question: who sees which, page by page, and that an index answers it."""

from __future__ import annotations

from datetime import date

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.calls import NOT_ENDED, WantedCalls, calls, calls_of_leak, calls_of_leaks, watches
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.records.queries.test_leaks_plan import run


def numbers(book: m.Book, scope: Scope = EVERYTHING, *, beyond: Edge | None = None, most: int = 50, **wanted):
    with book.store.reading() as tx:
        return [row.number for row in calls(scope, tx, wanted=WantedCalls(**wanted), beyond=beyond, most=most)]


def test_calls_are_given_the_newest_first_in_pages_that_meet_without_a_gap(store: Store) -> None:
    book = m.opened(store)
    book.say(*(c.call(book, happened=f"2026-03-{day:02d}") for day in (1, 2, 2, 3)))
    every = numbers(book)
    assert every == ["ES-C26-0004", "ES-C26-0003", "ES-C26-0002", "ES-C26-0001"]
    with store.reading() as tx:
        first = calls(EVERYTHING, tx, wanted=WantedCalls(), beyond=None, most=2)
    edge = Edge(date.fromisoformat(first[-1].received_on), first[-1].id)
    assert numbers(book, beyond=edge, most=2) == every[2:]
    with store.reading() as tx:
        (third, _) = calls(EVERYTHING, tx, wanted=WantedCalls(), beyond=edge, most=2)
    newer = Edge(date.fromisoformat(third.received_on), third.id, "newer")
    assert numbers(book, beyond=newer, most=2) == every[:2]


def test_a_call_and_a_watch_are_told_with_where_they_are_in_full(store: Store) -> None:
    book = m.opened(store)
    where = {
        "house_number": "3",
        "street": "Mill Lane",
        "cross_street": "Weir Street",
        "town": "Oxmoor",
        "location": "rear",
    }
    call, bare, leak = c.call(book, **where), c.call(book), m.leak(book, **where)
    book.say(call, leak, c.watch(leak["id"]))
    with store.reading() as tx:
        rows = [*calls(EVERYTHING, tx, wanted=WantedCalls(), beyond=None, most=9), *watches(EVERYTHING, tx)]
    assert [{name: getattr(row, name) for name in where} for row in rows] == [where, where]
    book.say({name: value for name, value in bare.items() if name not in where})
    with store.reading() as tx:
        (row,) = [
            row for row in calls(EVERYTHING, tx, wanted=WantedCalls(), beyond=None, most=9) if str(row.id) == bare["id"]
        ]
    assert {getattr(row, name) for name in where} == {""}


def test_a_person_sees_the_calls_of_their_areas_alone(store: Store) -> None:
    book = m.opened(store)
    here, there, leak = c.call(book), c.call(book, area=book.other_area), m.leak(book)
    book.say(here, there, leak, c.watch(leak["id"]))
    of = {name: Scope(areas=frozenset({read_id(id)})) for name, id in (("ES", book.area), ("HF", book.other_area))}
    assert {name: numbers(book, scope) for name, scope in of.items()} == {"ES": ["ES-C26-0001"], "HF": ["HF-C26-0001"]}
    assert numbers(book, of["ES"], area=read_id(book.other_area)) == []
    with store.reading() as tx:
        assert {name: len(watches(scope, tx)) for name, scope in of.items()} == {"ES": 1, "HF": 0}


def test_the_calls_of_a_leak_are_those_that_opened_or_joined_it(store: Store) -> None:
    book = m.opened(store)
    first, second, other = c.call(book), c.call(book, happened="2026-03-04"), c.call(book)
    leak = m.leak(book, from_call=first["id"])
    joins = c.outcome(second["id"], happened="2026-03-04", outcome="operators_leak", found_leak=leak["id"])
    book.say(first, second, other, leak, joins)
    with store.reading() as tx:
        assert [row.number for row in calls_of_leak(EVERYTHING, tx, leak=read_id(leak["id"]))] == [
            "ES-C26-0001",
            "ES-C26-0002",
        ]


def test_the_calls_of_several_leaks_come_the_newest_first_and_those_of_no_other(store: Store) -> None:
    book = m.opened(store)
    first, second, other = c.call(book), c.call(book, happened="2026-03-04"), c.call(book)
    leaks = [m.leak(book, from_call=call["id"]) for call in (first, second, other)]
    book.say(first, second, other, *leaks)
    with store.reading() as tx:
        found = calls_of_leaks(EVERYTHING, tx, leaks=[read_id(leak["id"]) for leak in leaks[:2]])
    assert [row.number for row in found] == ["ES-C26-0002", "ES-C26-0001"]


@pytest.mark.parametrize(
    ("number", "found"),
    [("ES-C26-0001", 1), ("es-c26-0001", 1), ("C-2026-55", 2), ("ES-C26-000", 0), ("C-2026-56", 0)],
)
def test_a_call_is_found_by_its_number_or_by_one_that_others_know_it_by(store: Store, number: str, found: int) -> None:
    book = m.opened(store)
    first, second, other = (c.call(book) for _ in range(3))
    book.say(first, second, other, d.number(second["id"]))
    assert numbers(book, number=number) == ([f"ES-C26-000{found}"] if found else [])
    assert numbers(book, number=number, statuses=NOT_ENDED) == numbers(book, number=number)


@pytest.mark.parametrize("wanted", ["all", "area", "status", "street"])
def test_an_index_answers_and_nothing_is_put_in_order_but_a_page(sqlite_store: Store, wanted: str) -> None:
    book = m.opened(sqlite_store)
    book.say(*(c.call(book, street=f"Street {each % 7}") for each in range(40)))
    with sqlite_store.reading() as tx:
        street = streets_named(EVERYTHING, tx, part="street 3")[0]
        asks = {
            "all": WantedCalls(),
            "area": WantedCalls(area=read_id(book.area), report="odor"),
            "status": WantedCalls(statuses=("received",)),
            "street": WantedCalls(streets=(street,), statuses=NOT_ENDED),
        }
        with run(sqlite_store) as seen:
            assert calls(EVERYTHING, tx, wanted=asks[wanted], beyond=None, most=5)
        (asked,) = seen
        plan = [str(row[-1]) for row in tx.connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {asked[0]}", asked[1])]
    assert [line for line in plan if line.startswith("SCAN call") and "USING" not in line] == []
    assert [line for line in plan[:-1] if "TEMP B-TREE" in line] == []
