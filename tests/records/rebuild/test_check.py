"""Every cell of every facts and worked table that is not what the journal says is named, and nothing else."""

from __future__ import annotations

from itertools import zip_longest
from typing import Any

from sqlalchemy import Table

from repairlog.records.rebuild import Difference, check
from repairlog.records.store import Store
from repairlog.records.tables import key_names, of_kind
from tests.makers import full_book
from tests.makers.cells import Alteration, Row, altered, delete, insert, of_wrong_types, others, raw_rows


def shown(cell: Any) -> str | None:
    """A cell as a difference shows it."""
    if isinstance(cell, bool):
        return str(int(cell))
    return cell if cell is None else cell.hex() if isinstance(cell, bytes) else str(cell)


def key(table: Table, row: Row) -> dict[str, str | None]:
    return {name: shown(row[name]) for name in key_names(table)}


def whole(table: Table, row: Row) -> str:
    """In the order of the declared columns: in a migrated table those that came later stand last."""
    return ", ".join(f"{column.name}={shown(row[column.name])}" for column in table.columns)


def difference(table: Table, row: Row, **said: Any) -> Difference:
    nothing = {"column": None, "stands": None, "should": None, "because": "wrong"}
    return Difference(table=table.name, row=key(table, row), **nothing | said)


def differences_of(alteration: Alteration) -> list[Difference]:
    """What is to be said of one altered cell."""
    table, row, then = alteration.table, alteration.row, alteration.then
    if alteration.column in key_names(table):
        return [difference(table, then, stands=whole(table, then)), difference(table, row, should=whole(table, row))]
    stands, should = shown(alteration.put), shown(row[alteration.column])
    return [difference(table, row, column=alteration.column, stands=stands, should=should)]


def examples(rows: list[Row], column: str) -> list[Row]:
    """A row in which the column has a value and one in which it has none, as far as there are such; the value first."""
    filled = [row for row in rows if row[column] is not None]
    empty = [row for row in rows if row[column] is None]
    return filled[:1] + empty[:1]


def demand_named(store: Store, jobs: dict[str, list[Alteration]]) -> None:
    """Alter one cell of each table at a time: the comparison names every one of them, and nothing else."""
    for together in zip_longest(*jobs.values()):
        alterations = [each for each in together if each]
        with altered(store, alterations):
            found = check(store).differences
        assert sorted(found, key=repr) == sorted((d for a in alterations for d in differences_of(a)), key=repr)
    assert check(store).differences == ()


def test_the_full_book_has_a_row_in_every_table_and_a_value_in_every_column_that_is_worked_out(full):
    for table in of_kind("facts", "worked"):
        rows = raw_rows(full.book.store, table)
        empty = [column.name for column in table.columns if all(row[column.name] is None for row in rows)]
        assert (table.name, empty) == (table.name, []), "tests.makers.full_book says nothing of it"


def test_nothing_is_named_where_every_table_is_what_the_journal_says(full):
    checked = check(full.book.store)
    rows = sum(len(raw_rows(full.book.store, table)) for table in of_kind("facts", "worked"))
    assert (checked.differences, checked.rows) == ((), rows)


def test_every_altered_cell_is_named_with_what_stands_and_what_should(full):
    """On SQLite with a value, with another and with none; on PostgreSQL, where each look takes thrice as long, each
    column once, for what its driver gives back."""
    store = full.book.store
    tried = 1 if store.dialect == "postgresql" else None
    jobs = {}
    for table in of_kind("facts", "worked"):
        rows = raw_rows(store, table)
        jobs[table.name] = [
            Alteration(table, row, column.name, put)
            for column in table.columns
            for row in examples(rows, column.name)[:tried]
            for put in others(store, column, row[column.name])[:tried]
        ]
        assert {job.column for job in jobs[table.name]} == {column.name for column in table.columns}
    demand_named(store, jobs)


def test_a_cell_of_another_type_is_named_even_where_it_reads_the_same(sqlite_store):
    """SQLite alone lets such a cell stand: text for a number, 1.5 for 1, bytes for text, text for an id."""
    full_book.filled(sqlite_store)
    jobs = {}
    for table in of_kind("facts", "worked"):
        rows = raw_rows(sqlite_store, table)
        jobs[table.name] = [
            Alteration(table, row, column.name, put)
            for column in table.columns
            for row in examples(rows, column.name)[:1]
            for put in of_wrong_types(sqlite_store, table, row=row, column=column.name)
        ]
        assert {job.column for job in jobs[table.name]} == {column.name for column in table.columns}
    demand_named(sqlite_store, jobs)


def test_numbers_that_are_equal_and_of_another_type_are_named(sqlite_store):
    """In a table that its owner made anew without types, nothing turns 1.0 back into 1, or '2026' into 2026."""
    full_book.filled(sqlite_store)
    with sqlite_store.writing() as tx:
        for statement in (
            "ALTER TABLE area_counter RENAME TO typed",
            "CREATE TABLE area_counter (area_id, year, last, engine)",
            "INSERT INTO area_counter SELECT area_id, year, last + 0.0, engine FROM typed WHERE year = 2025",
            "INSERT INTO area_counter SELECT area_id, CAST(year AS TEXT), last, engine FROM typed WHERE year > 2025",
        ):
            tx.connection.exec_driver_sql(statement)
    found = [(each.row["year"], each.column, each.stands, each.should) for each in check(sqlite_store).differences]
    assert ("2025", "last", "1.0", "1") in found
    assert {(year, column) for year, column, *_ in found} == {("2025", "last"), ("2026", None)}
    assert sum(stands is None for *_, stands, _should in found) == sum(should is None for *_, should in found) == 2


def test_a_row_that_was_deleted_is_missing(full):
    store = full.book.store
    rows = {table: raw_rows(store, table)[-1] for table in (*of_kind("facts"), *of_kind("worked"))}
    for table, row in rows.items():
        delete(store, table, row)
    try:
        found = check(store).differences
    finally:
        for table, row in rows.items():
            insert(store, table, row)
    assert found == tuple(difference(table, row, should=whole(table, row)) for table, row in rows.items())
    assert check(store).differences == ()


def test_a_row_that_was_added_is_one_too_many(full):
    store = full.book.store
    rows = {table: another(store, table) for table in (*of_kind("facts"), *of_kind("worked"))}
    for table, row in rows.items():
        insert(store, table, row)
    try:
        found = check(store).differences
    finally:
        for table, row in rows.items():
            delete(store, table, row)
    assert found == tuple(difference(table, row, stands=whole(table, row)) for table, row in rows.items())
    assert check(store).differences == ()


def another(store: Store, table: Table) -> Row:
    """A row of the table's own kind with a key that is not there."""
    row = [each for each in raw_rows(store, table) if each.get("kind") != "operator"][-1]  # of which a book has one
    keys = [column.name for column in table.columns if column.primary_key or column.name in ("number", "journal_index")]
    return row | {name: others(store, table.c[name], row[name])[0] for name in keys}


def test_bytes_that_are_no_text_are_named_as_they_stand(sqlite_store):
    """SQLite lets them stand as text; its driver would not read them."""
    made = full_book.filled(sqlite_store)
    with sqlite_store.writing() as tx:
        tx.connection.exec_driver_sql("UPDATE leak_opened SET house_number = CAST(x'31ff' AS TEXT)")
    found = check(sqlite_store).differences
    assert {(each.table, each.column, each.stands) for each in found} == {("leak_opened", "house_number", "1\\udcff")}
    assert len(found) == len(raw_rows_of_leaks(made))


def raw_rows_of_leaks(made: full_book.FullBook) -> list[str]:
    with made.book.store.reading() as tx:
        return list(tx.connection.exec_driver_sql("SELECT hex(id) FROM leak_opened").scalars())
