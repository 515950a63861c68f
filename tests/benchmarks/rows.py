"""All rows of a database, for holding one against another."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from repairlog.records.store import Store
from repairlog.records.tables import METADATA

Rows = dict[str, list[tuple[Any, ...]]]


def all_rows(store: Store) -> Rows:
    """Every row of every table, each table in one order whatever the order in which its rows were written."""
    with store.reading() as tx:
        return {
            name: sorted((tuple(row) for row in tx.connection.execute(select(table))), key=repr)
            for name, table in METADATA.tables.items()
        }
