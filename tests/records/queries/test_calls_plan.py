"""The list of calls looks at hardly more calls than it shows, whatever is asked for, on a book of twenty thousand."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from typing import Any

from repairlog.access import EVERYTHING, Scope
from repairlog.records.queries.calls import NOT_ENDED, WantedCalls, calls
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from tests.makers import book as m
from tests.makers import many_calls
from tests.records.queries.test_leaks_plan import run

MOST = 51
LOOKED_AT = 2000
"""Calls of 20,000 that PostgreSQL may look at for a page of 51."""

Ask = Callable[[m.Book, Tx], tuple[Scope, WantedCalls, Edge | None]]


def _here(book: m.Book) -> Scope:
    return Scope(areas=frozenset({m.read_id(book.area)}))


def _streets(tx: Tx, part: str) -> WantedCalls:
    return WantedCalls(streets=tuple(streets_named(EVERYTHING, tx, part=part)))


ASKS: dict[str, Ask] = {
    "nothing": lambda _book, _tx: (EVERYTHING, WantedCalls(), None),
    "the second page": lambda _book, _tx: (EVERYTHING, WantedCalls(), Edge(date(2020, 3, 1), many_calls.call_id(1))),
    "the page before": lambda _book, _tx: (
        EVERYTHING,
        WantedCalls(),
        Edge(date(2020, 3, 1), many_calls.call_id(1), "newer"),
    ),
    "an area": lambda book, _tx: (EVERYTHING, WantedCalls(area=m.read_id(book.area)), None),
    "the only area in scope": lambda book, _tx: (_here(book), WantedCalls(), None),
    "what is not ended": lambda _book, _tx: (EVERYTHING, WantedCalls(statuses=NOT_ENDED), None),
    "what is not ended in the only area": lambda book, _tx: (_here(book), WantedCalls(statuses=NOT_ENDED), None),
    "a status of no call": lambda _book, _tx: (EVERYTHING, WantedCalls(statuses=("on_way",)), None),
    "a report": lambda _book, _tx: (EVERYTHING, WantedCalls(report="carbon_monoxide"), None),
    "an outcome": lambda _book, _tx: (EVERYTHING, WantedCalls(outcome="no_access"), None),
    "an outcome of no call": lambda _book, _tx: (EVERYTHING, WantedCalls(outcome="other_gas"), None),
    "a day from which": lambda _book, _tx: (EVERYTHING, WantedCalls(from_on=date(2020, 1, 1)), None),
    "a day until which": lambda _book, _tx: (EVERYTHING, WantedCalls(until_on=date(2020, 1, 1)), None),
    "one street": lambda _book, tx: (EVERYTHING, _streets(tx, "fuller lane 312"), None),
    "many streets": lambda _book, tx: (EVERYTHING, _streets(tx, "quarry"), None),
    "a number": lambda _book, _tx: (EVERYTHING, WantedCalls(number=many_calls.number_of(50)), None),
    "a number in the only area": lambda book, _tx: (_here(book), WantedCalls(number=many_calls.number_of(50)), None),
    "another's number for it": lambda _book, _tx: (
        EVERYTHING,
        WantedCalls(number=many_calls.other_number_of(50)),
        None,
    ),
    "a number of no call": lambda _book, _tx: (EVERYTHING, WantedCalls(number="ZZ-1"), None),
}


def test_postgresql_looks_at_hardly_more_calls_than_it_shows(postgresql_store):
    book = m.opened(postgresql_store)
    many_calls.fill(book, how_many=20_000)
    looked_at = {name: _looked_at(book, ask) for name, ask in ASKS.items()}
    assert {name: rows for name, rows in looked_at.items() if rows > LOOKED_AT} == {}
    assert looked_at["nothing"] >= MOST  # the plan was read


def _looked_at(book: m.Book, ask: Ask) -> int:
    with book.store.reading() as tx:
        scope, wanted, beyond = ask(book, tx)
        with run(book.store) as seen:
            calls(scope, tx, wanted=wanted, beyond=beyond, most=MOST)
        return sum(_rows_of_calls(_plan(tx, *each)) for each in seen)


def _plan(tx: Tx, sql: str, parameters: Any) -> dict[str, Any]:
    (told,) = tx.connection.exec_driver_sql(f"EXPLAIN (ANALYZE, FORMAT JSON) {sql}", parameters).scalars()
    plan: dict[str, Any] = (told if isinstance(told, list) else json.loads(told))[0]["Plan"]
    return plan


def _rows_of_calls(node: dict[str, Any]) -> int:
    """Rows of the tables of calls that a plan's nodes read, those that a filter then took away counted in."""
    of_calls = node.get("Relation Name") in ("call", "call_received")
    here = node["Actual Rows"] + node.get("Rows Removed by Filter", 0) if of_calls else 0
    return here * node["Actual Loops"] + sum(map(_rows_of_calls, node.get("Plans", ())))
