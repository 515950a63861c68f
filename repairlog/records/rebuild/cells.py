"""Rows as the driver gives and takes them, so that a cell altered by hand to anything at all can still be compared."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from hashlib import blake2b
from itertools import islice
from operator import attrgetter, itemgetter
from typing import Any

from sqlalchemy import Boolean, Column, Dialect, Table
from sqlalchemy.exc import OperationalError

from repairlog.records.columns import Id
from repairlog.records.store import Tx, any_text
from repairlog.records.tables import key_names

Cells = tuple[Any, ...]
"""The cells of one row in the order of the table's columns, as the driver has them."""


def encoder(table: Table, dialect: Dialect) -> Callable[[Mapping[str, Any]], Cells]:
    """What turns a row as it should stand into the cells that the driver would give for it."""
    take = itemgetter(*(column.name for column in table.columns))
    each = [(place, _to_driver(column, dialect)) for place, column in enumerate(table.columns)]
    turned = [(place, to_driver) for place, to_driver in each if to_driver]

    def encode(row: Mapping[str, Any]) -> Cells:
        cells = [*take(row)]
        for place, to_driver in turned:
            if cells[place] is not None:
                cells[place] = to_driver(cells[place])
        return tuple(cells)

    return encode


def _to_driver(column: Column[Any], dialect: Dialect) -> Callable[[Any], Any] | None:
    """None where the driver takes the value as it is."""
    if isinstance(column.type, Id):
        return attrgetter("bytes") if dialect.name == "sqlite" else None
    if isinstance(column.type, Boolean):
        return int  # as `_plain` has it
    return column.type.dialect_impl(dialect).bind_processor(dialect)


def stored(tx: Tx, table: Table) -> Iterator[Cells]:
    """Every row of a table as the driver gives it, streamed."""
    given = 0
    try:
        for row in _read(tx, table):
            yield row
            given += 1
    except OperationalError:  # SQLite's driver refuses bytes that are no text; then all is read whatever it is
        with any_text(tx):
            yield from islice(_read(tx, table), given, None)


def _read(tx: Tx, table: Table) -> Iterator[Cells]:
    names = ", ".join(f'"{column.name}"' for column in table.columns)
    reading = f'SELECT {names} FROM "{table.name}"'
    connection = tx.connection.execution_options(stream_results=True, max_row_buffer=1000)
    for row in connection.exec_driver_sql(reading):
        yield tuple(_plain(cell) for cell in row)


def key_of(table: Table, cells: Cells) -> bytes:
    """A digest of a row's key."""
    return _digest(tuple(cells[place] for place in _key_places(table)))


def digest_of(cells: Cells) -> bytes:
    """A digest of the whole row: of its cells and of their types."""
    return _digest(cells)


def shown(cell: Any) -> str | None:
    """A cell for a person to read; None for none."""
    if cell is None:
        return None
    return cell.hex() if isinstance(cell, bytes) else str(cell).encode(errors="backslashreplace").decode()


def key_shown(table: Table, cells: Cells) -> dict[str, str]:
    """A row's key for a person to read."""
    names = [column.name for column in table.columns]
    return {names[place]: shown(cells[place]) or "" for place in _key_places(table)}


@cache
def _key_places(table: Table) -> tuple[int, ...]:
    names = key_names(table)
    return tuple(place for place, column in enumerate(table.columns) if column.name in names)


def _digest(cells: Cells) -> bytes:
    return blake2b(repr(cells).encode(), digest_size=16).digest()


def _plain(cell: Any) -> Any:
    """One type for what drivers give in several: bytes for a view of memory, a whole number for a truth value."""
    if isinstance(cell, memoryview):
        return bytes(cell)
    return int(cell) if isinstance(cell, bool) else cell
