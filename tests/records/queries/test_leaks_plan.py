"""The list of leaks goes by an index whatever is asked for, and takes no longer on a book ten times as large."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from typing import Any

from sqlalchemy import event

from repairlog.access import EVERYTHING, Scope
from repairlog.records.queries.leaks import Edge, Wanted, leaks
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Store, Tx
from tests.makers import book as m
from tests.makers import many_leaks

MOST = 51
FEW, MANY = 300, 3000
"""Leaks of the smaller and of the larger book."""

LOOKED_AT = 2000
"""Leaks of 20,000 that PostgreSQL may look at for a page of 51: for how a number begins it looks at 500 twice over."""

A_ROW = 120
"""Steps that a leak more on the page may take: its rows are looked up, its gaps counted, itself put in order."""

Ask = Callable[[m.Book, Tx], tuple[Scope, Wanted, Edge | None]]


def _here(book: m.Book) -> Scope:
    return Scope(areas=frozenset({m.read_id(book.area)}))


def _both(book: m.Book) -> Scope:
    return Scope(areas=frozenset({m.read_id(book.area), m.read_id(book.other_area)}))


def _streets(tx: Tx, part: str) -> Wanted:
    return Wanted(streets=tuple(streets_named(EVERYTHING, tx, part=part)))


ASKS: dict[str, Ask] = {
    "nothing": lambda _book, _tx: (EVERYTHING, Wanted(), None),
    "the second page": lambda _book, _tx: (EVERYTHING, Wanted(), Edge(date(2020, 3, 1), many_leaks.leak_id(1))),
    "the page before": lambda _book, _tx: (
        EVERYTHING,
        Wanted(),
        Edge(date(2020, 3, 1), many_leaks.leak_id(1), "newer"),
    ),
    "an area": lambda book, _tx: (EVERYTHING, Wanted(area=m.read_id(book.area)), None),
    "the only area in scope": lambda book, _tx: (_here(book), Wanted(), None),
    "two areas in scope": lambda book, _tx: (_both(book), Wanted(), None),
    "a status": lambda _book, _tx: (EVERYTHING, Wanted(status="open"), None),
    "a status in the only area": lambda book, _tx: (_here(book), Wanted(status="open"), None),
    "a status of no leak": lambda book, _tx: (_here(book), Wanted(status="opened_in_error"), None),
    "a grade": lambda _book, _tx: (EVERYTHING, Wanted(grade="1"), None),
    "a grade of no leak": lambda _book, _tx: (EVERYTHING, Wanted(grade="9"), None),
    "a day from which": lambda _book, _tx: (EVERYTHING, Wanted(from_on=date(2020, 1, 1)), None),
    "a day until which": lambda _book, _tx: (EVERYTHING, Wanted(until_on=date(2020, 1, 1)), None),
    "one street": lambda _book, tx: (EVERYTHING, _streets(tx, "fuller lane 312"), None),
    "one street in the only area": lambda book, tx: (_here(book), _streets(tx, "fuller lane 312"), None),
    "many streets": lambda _book, tx: (EVERYTHING, _streets(tx, "quarry"), None),
    "many streets in two areas": lambda book, tx: (_both(book), _streets(tx, "quarry"), None),
    "no street": lambda _book, tx: (EVERYTHING, _streets(tx, "nowhere"), None),
    "a number": lambda _book, _tx: (EVERYTHING, Wanted(number=many_leaks.number_of(50)), None),
    "a number in the only area": lambda book, _tx: (_here(book), Wanted(number=many_leaks.number_of(50)), None),
    "another's number for it": lambda _book, _tx: (EVERYTHING, Wanted(number=many_leaks.other_number_of(50)), None),
    "a number of no leak": lambda _book, _tx: (EVERYTHING, Wanted(number="ZZ-1"), None),
    "how some numbers begin": lambda _book, _tx: (EVERYTHING, Wanted(number="ES-16-000"), None),
    "how some numbers begin, and a status": lambda book, _tx: (
        _here(book),
        Wanted(number="ES-16-000", status="ended"),
        None,
    ),
    "how every other number begins": lambda _book, _tx: (EVERYTHING, Wanted(number="ES"), None),
}


@contextmanager
def run(store: Store) -> Iterator[list[tuple[str, Any]]]:
    """Collects the statements that run, with their parameters."""
    seen: list[tuple[str, Any]] = []

    def see(_connection: Any, _cursor: Any, sql: str, parameters: Any, _context: Any, _many: bool) -> None:
        seen.append((sql, parameters))

    event.listen(store.engine, "before_cursor_execute", see)
    try:
        yield seen
    finally:
        event.remove(store.engine, "before_cursor_execute", see)


def statements(book: m.Book, ask: Ask) -> list[tuple[str, Any]]:
    """What is run for that question about leaks; looking streets up is none of it."""
    with book.store.reading() as tx:
        scope, where, beyond = ask(book, tx)
        with run(book.store) as seen:
            leaks(scope, tx, where=where, beyond=beyond, most=MOST)
    return seen


def test_sqlite_goes_by_an_index_and_puts_nothing_in_order_but_a_page(sqlite_store):
    book = m.opened(sqlite_store)
    many_leaks.fill(book, how_many=FEW)
    found = {}
    for name, ask in ASKS.items():
        lines = [line for sql, parameters in statements(book, ask) for line in _sqlite_plan(book, sql, parameters)]
        found[name] = [line for line in lines if line.startswith("SCAN leak") and "USING" not in line]
        found[name] += [line for line in lines if line.startswith("SCAN leak_opened_outside_numbers")]
        found[name] += ["sorts"] if _sorts_leaks(lines) and "number" not in name else []
    assert {name: wrong for name, wrong in found.items() if wrong} == {}


def _sqlite_plan(book: m.Book, sql: str, parameters: Any) -> list[str]:
    with book.store.reading() as tx:
        return [str(row[-1]) for row in tx.connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {sql}", parameters)]


def _sorts_leaks(plan: list[str]) -> bool:
    """Whether it sorts before the first page full was taken; the rows of that are put in order at the end."""
    return any("TEMP B-TREE FOR" in line for line in plan[:-1])


def test_postgresql_looks_at_hardly_more_leaks_than_it_shows(postgresql_store):
    book = m.opened(postgresql_store)
    many_leaks.fill(book, how_many=20_000)
    looked_at = {name: sum(_looked_at(book, *each) for each in statements(book, ask)) for name, ask in ASKS.items()}
    assert {name: rows for name, rows in looked_at.items() if rows > LOOKED_AT} == {}
    assert looked_at["nothing"] >= MOST  # the plan was read


def _looked_at(book: m.Book, sql: str, parameters: Any) -> int:
    with book.store.reading() as tx:
        (told,) = tx.connection.exec_driver_sql(f"EXPLAIN (ANALYZE, FORMAT JSON) {sql}", parameters).scalars()
    plan = told if isinstance(told, list) else json.loads(told)
    return _rows_of_leaks(plan[0]["Plan"])


def _rows_of_leaks(node: dict[str, Any]) -> int:
    """Rows of the table of leaks that a plan's nodes read, those that a filter then took away counted in."""
    here = node["Actual Rows"] + node.get("Rows Removed by Filter", 0) if node.get("Relation Name") == "leak" else 0
    return here * node["Actual Loops"] + sum(map(_rows_of_leaks, node.get("Plans", ())))


def test_on_a_book_ten_times_as_large_sqlite_takes_at_most_twice_the_steps(sqlite_store):
    book = m.opened(sqlite_store)
    few = _steps_of_all(book, how_many=FEW)
    many = _steps_of_all(book, how_many=MANY)
    grown = {name: (few[name], many[name]) for name in ASKS}
    assert {name: each for name, each in grown.items() if not _holds(*each)} == {}
    assert few["nothing"] > (500, 0)  # steps were counted


def _holds(few: tuple[int, int], many: tuple[int, int]) -> bool:
    return many[0] <= 2 * few[0] + A_ROW * (many[1] - few[1])


def _steps_of_all(book: m.Book, *, how_many: int) -> dict[str, tuple[int, int]]:
    with book.store.writing() as tx:
        for table in many_leaks.TABLES:
            tx.connection.execute(table.delete())
    many_leaks.fill(book, how_many=how_many)
    return {name: _steps(book, ask) for name, ask in ASKS.items()}


def _steps(book: m.Book, ask: Ask) -> tuple[int, int]:
    """Steps of SQLite's machine, counted in tens, and how many leaks came of them."""
    counted = 0

    def count() -> None:
        nonlocal counted
        counted += 10

    with book.store.reading() as tx:
        scope, where, beyond = ask(book, tx)
        connection: Any = tx.connection.connection.driver_connection
        connection.set_progress_handler(count, 10)
        try:
            found = leaks(scope, tx, where=where, beyond=beyond, most=MOST)
        finally:
            connection.set_progress_handler(None, 0)
    return counted, len(found)


def test_one_leak_and_three_take_the_same_number_of_statements(store):
    book = m.opened(store)
    counted = []
    for more in (1, 2):
        book.say(*(m.leak(book) for _ in range(more)))
        counted.append({name: len(statements(book, ask)) for name, ask in ASKS.items()})
    assert counted[0] == counted[1]
