"""Altering one cell of a table as its owner could, past everything of ours, and putting it back."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from typing import Any
from uuid import UUID

from sqlalchemy import Boolean, Column, Connection, Table
from sqlalchemy.exc import IntegrityError

from repairlog.records.columns import Id, Moment
from repairlog.records.store import Store
from repairlog.records.tables import key_names

Row = dict[str, Any]
"""A row's cells as the driver has them."""

DAY, MOMENT = date(2026, 3, 5), datetime(2026, 3, 5, 10, 2, tzinfo=UTC)
MARK = {"sqlite": "?", "postgresql": "%s"}
"""What stands for a value in a statement, by database."""


def raw_rows(store: Store, table: Table) -> list[Row]:
    """Every row as the driver gives it."""
    with store.reading() as tx:
        return [dict(row) for row in tx.connection.exec_driver_sql(f'SELECT * FROM "{table.name}"').mappings()]


def do(store: Store, statement: str, *values: Any) -> int:
    """One statement with its values, committed; how many rows it touched. `?` stands for a value."""
    with store.writing() as tx:
        return tx.connection.exec_driver_sql(statement.replace("?", MARK[store.dialect]), values).rowcount


@dataclass(frozen=True)
class Alteration:
    """`put` in one cell of the row `row` of a table."""

    table: Table
    row: Row
    column: str
    put: Any

    @property
    def then(self) -> Row:
        """The row as it stands after."""
        return self.row | {self.column: self.put}


@contextmanager
def altered(store: Store, alterations: Sequence[Alteration]) -> Iterator[None]:
    """Those cells are altered within the block, all in one commit."""
    alter(store, alterations)
    try:
        yield
    finally:
        alter(store, [replace(each, row=each.then, put=each.row[each.column]) for each in alterations])


def alter(store: Store, alterations: Sequence[Alteration]) -> None:
    """Alter those cells for good, all in one commit."""
    with store.writing() as tx:
        for each in alterations:
            _put(store, tx.connection, each)


def _put(store: Store, connection: Connection, alteration: Alteration) -> None:
    statement = f'UPDATE "{alteration.table.name}" SET "{alteration.column}" = ? WHERE {_where(alteration.table)}'
    values = (alteration.put, *_key(alteration.table, alteration.row))
    assert connection.exec_driver_sql(statement.replace("?", MARK[store.dialect]), values).rowcount == 1


def _where(table: Table) -> str:
    return " AND ".join(f'"{name}" = ?' for name in key_names(table))


def _key(table: Table, row: Row) -> list[Any]:
    return [row[name] for name in key_names(table)]


def insert(store: Store, table: Table, row: Row) -> None:
    """Put a row in."""
    names = ", ".join(f'"{name}"' for name in row)
    do(store, f'INSERT INTO "{table.name}" ({names}) VALUES ({", ".join("?" for _ in row)})', *row.values())


def delete(store: Store, table: Table, row: Row) -> None:
    """Take a row out."""
    assert do(store, f'DELETE FROM "{table.name}" WHERE {_where(table)}', *_key(table, row)) == 1


def others(store: Store, column: Column[Any], cell: Any) -> list[Any]:
    """Other cells of the right type for that column: the nearest there is, and none or some where it may be empty."""
    near = _something(store, column) if cell is None else _next(column, cell)
    return [near] + ([None] if column.nullable and cell is not None else [])


def _next(column: Column[Any], cell: Any) -> Any:
    """The next thing of the same type; of a number that may be unique, one that is nowhere else."""
    if isinstance(column.type, Boolean):
        return type(cell)(1 - cell)
    steps: dict[type, Callable[[Any], Any]] = {
        int: lambda number: number + 1_000_000,
        float: lambda number: math.nextafter(number, math.inf),
        bytes: lambda id: id[:-1] + bytes([id[-1] ^ 1]),
        UUID: lambda id: UUID(int=id.int ^ 1),
        datetime: lambda moment: moment + timedelta(milliseconds=1),
        date: lambda day: day + timedelta(days=1),
        str: lambda text: text + " ",
    }
    return steps[type(cell)](cell)


def _something(store: Store, column: Column[Any]) -> Any:
    """Some cell of the column's type, as the driver has it."""
    if isinstance(column.type, Id):
        return UUID(int=1) if store.dialect == "postgresql" else UUID(int=1).bytes
    some = {str: "x", int: 1, float: 0.5, bool: True, date: DAY, Moment: MOMENT}
    found = some[Moment if isinstance(column.type, Moment) else column.type.python_type]
    return str(found) if store.dialect == "sqlite" and isinstance(found, date) else found


def of_wrong_types(store: Store, table: Table, *, row: Row, column: str) -> list[Any]:
    """What SQLite lets stand in that cell that is of another type than ours (its affinity turns some back)."""
    cell = row[column]
    candidates: list[Any] = [1, "1", 1.0, 1.5, 0, "x", b"x", b"", ""]
    if isinstance(cell, str):
        candidates.append(cell.encode())
    if isinstance(cell, bytes):
        candidates += [cell.hex(), str(UUID(bytes=cell)), int.from_bytes(cell[:7])]
    if isinstance(cell, int | float):
        candidates += [str(cell), str(cell).encode(), float(cell), int(cell)]
    with store.engine.connect() as connection:
        return [each for each in candidates if _survives(store, connection, Alteration(table, row, column, each))]


def _survives(store: Store, connection: Connection, alteration: Alteration) -> bool:
    """Whether what is put in comes back as it is and is of another type than what stood; nothing is committed."""
    with connection.begin() as attempt:
        try:
            _put(store, connection, alteration)
        except IntegrityError:  # text that reads as a number which stands elsewhere
            return False
        reading = f'SELECT "{alteration.column}" FROM "{alteration.table.name}" WHERE {_where(alteration.table)}'
        found = connection.exec_driver_sql(reading, tuple(_key(alteration.table, alteration.then))).scalar()
        attempt.rollback()
    stood = alteration.row[alteration.column]
    return type(found) is type(alteration.put) and type(found) is not type(stood)
