"""Writing many rows at once into emptied tables: COPY on PostgreSQL, the driver's executemany on SQLite."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import Any

from sqlalchemy import Table

from repairlog.records.store import Tx, close_the_gate
from repairlog.records.tables.metadata import of_kind


def empty_worked_out(tx: Tx) -> None:
    """Take every row of every facts and worked table away, holding all others off on PostgreSQL until the commit."""
    tables = of_kind("facts", "worked")
    if tx.dialect == "postgresql":
        close_the_gate(tx)  # to one who took a picture before it, a truncated table would look empty
        names = ", ".join(f'"{table.name}"' for table in tables)
        tx.connection.exec_driver_sql(f"TRUNCATE {names}")
    else:
        for table in tables:
            tx.connection.exec_driver_sql(f'DELETE FROM "{table.name}"')


def put_rows(tx: Tx, table: Table, *, rows: Collection[Sequence[Any]]) -> None:
    """Insert rows that are not there yet; each in the order of the table's columns, as the driver takes its cells."""
    names = ", ".join(f'"{column.name}"' for column in table.columns)
    if tx.dialect == "postgresql":
        driver: Any = tx.connection.connection.driver_connection
        with driver.cursor() as cursor, cursor.copy(f'COPY "{table.name}" ({names}) FROM STDIN') as copy:
            _copy(copy, rows)
        return
    marks = ", ".join("?" for _ in table.columns)
    tx.connection.exec_driver_sql(f'INSERT INTO "{table.name}" ({names}) VALUES ({marks})', list(map(tuple, rows)))


def _copy(copy: Any, rows: Iterable[Sequence[Any]]) -> None:
    for row in rows:
        copy.write_row(row)
