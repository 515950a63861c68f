"""The one place that writes rows: table by table, rows put in place of those of their key, keys taken away."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any
from uuid import UUID

from sqlalchemy import Delete, Insert, Table, bindparam, delete
from sqlalchemy.dialects import postgresql, sqlite

from repairlog.records.store import Tx
from repairlog.records.tables.metadata import key_names, value_columns
from repairlog.records.tables.picture import Change, Row


def write(tx: Tx, change: Change, *, keep: bool = False) -> None:
    """Write what a change says; rows of a table in the order of their keys, so that two writers cannot cross.

    `keep`: a row that is there already stays as it is.
    """
    for table, keys in change.takes.items():
        names = key_names(table)
        tx.connection.execute(_taking(table), [dict(zip(_bound(names), key, strict=True)) for key in keys])
    for table, rows in change.puts.items():
        ordered = sorted(rows, key=_place(key_names(table)))
        tx.connection.execute(_putting(table, tx.dialect, keep=keep), ordered)


def _place(names: tuple[str, ...]) -> Callable[[Row], list[Any]]:
    """What puts rows in the order of their keys: ids as numbers, since many are compared."""
    return lambda row: [cell.int if isinstance(cell := row[name], UUID) else cell for name in names]


@cache
def _putting(table: Table, dialect: str, *, keep: bool) -> Insert:
    names, values = key_names(table), value_columns(table)
    put = postgresql.insert(table) if dialect == "postgresql" else sqlite.insert(table)
    if keep or not values:
        return put.on_conflict_do_nothing(index_elements=names)
    return put.on_conflict_do_update(index_elements=names, set_={c.name: put.excluded[c.name] for c in values})


@cache
def _taking(table: Table) -> Delete:
    names = key_names(table)
    matches = [table.c[name] == bindparam(bound) for name, bound in zip(names, _bound(names), strict=True)]
    return delete(table).where(*matches)


def _bound(names: tuple[str, ...]) -> list[str]:
    return [f"key_{name}" for name in names]
