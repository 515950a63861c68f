"""The statements that run on a database, as the driver gets them; and the same ones run through the driver alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import psycopg
from sqlalchemy import event

from repairlog.records.store import Store

WRITING = ("INSERT", "UPDATE", "DELETE")


@dataclass(frozen=True, slots=True)
class Statement:
    """One statement in the driver's own words. `many`: its parameters are those of many rows. `gives`: it answers with
    rows; `rows`: how many rows it wrote or answered, where the driver says so."""

    sql: str
    parameters: Any
    many: bool
    gives: bool
    rows: int

    @property
    def writes(self) -> bool:
        """Whether it left a row otherwise than it was."""
        return self.sql.lstrip().startswith(WRITING) and self.rows != 0


@contextmanager
def captured(store: Store) -> Iterator[list[Statement]]:
    """Collects what the store's connections run, but for BEGIN and COMMIT."""
    seen: list[Statement] = []

    def see(_connection: Any, cursor: Any, sql: str, parameters: Any, _context: Any, executemany: bool) -> None:
        if not sql.startswith("BEGIN"):
            gives = cursor.description is not None
            seen.append(Statement(sql, parameters, many=executemany, gives=gives, rows=cursor.rowcount))

    event.listen(store.engine, "after_cursor_execute", see)
    try:
        yield seen
    finally:
        event.remove(store.engine, "after_cursor_execute", see)


@contextmanager
def driver(store: Store) -> Iterator[Any]:
    """A connection of the driver itself, with all the settings that the store gives its own: as durable as those.

    Every statement is prepared at its first use and kept so.
    """
    pooled = store.engine.raw_connection()
    try:
        connection = pooled.driver_connection
        if isinstance(connection, psycopg.Connection):
            connection.prepare_threshold = 0
        yield connection
    finally:
        pooled.close()


def replay(connection: Any, statements: Sequence[Statement]) -> None:
    """Run them in one transaction. `connection`: of `driver`."""
    cursor = connection.cursor()
    if not isinstance(connection, psycopg.Connection):
        cursor.execute("BEGIN IMMEDIATE")  # as the store begins; psycopg begins by itself
    for each in statements:
        if each.many:
            cursor.executemany(each.sql, each.parameters)
        else:
            cursor.execute(each.sql, each.parameters)
        if each.gives:
            cursor.fetchall()
    connection.commit()
