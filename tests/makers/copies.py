"""Copies of whole tables, so that a test can say that nothing changed, or what alone did."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from sqlalchemy import Column, Table, select

from repairlog.records.store import Store
from repairlog.records.tables import METADATA

Copy = dict[str, list[tuple[Any, ...]]]


def copy_of(store: Store, *tables: Table, without: Collection[str] = ()) -> Copy:
    """The rows of these tables (of every table where none is given) as tuples, by table, in an order of their own.

    `without`: names of columns, or of a column of one table as `table.column`, that are left out.
    """
    with store.reading() as tx:
        return {
            table.name: sorted(
                (tuple(row) for row in tx.connection.execute(select(*_columns(table, without=without)))), key=repr
            )
            for table in tables or METADATA.tables.values()
        }


def _columns(table: Table, *, without: Collection[str]) -> list[Column[Any]]:
    return [c for c in table.c if c.name not in without and f"{table.name}.{c.name}" not in without]


def changed(before: Copy, after: Copy) -> set[str]:
    """Names of the tables whose rows are not the same."""
    return {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}


def rows(store: Store, table: Table, **where: object) -> list[dict[str, Any]]:
    """The rows of a table with these values, as dictionaries, in the order of its key."""
    chosen = select(table).where(*(table.c[name] == value for name, value in where.items()))
    with store.reading() as tx:
        found = tx.connection.execute(chosen.order_by(*table.primary_key)).mappings()
        return [dict(row) for row in found]


def count(store: Store, table: Table) -> int:
    """How many rows a table has."""
    return len(rows(store, table))
