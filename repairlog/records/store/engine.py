"""Engines with the settings of a book of record: nothing acknowledged may be lost at power loss."""

from __future__ import annotations

import re
import sqlite3
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.exc import ArgumentError
from sqlalchemy.pool import ConnectionPoolEntry, QueuePool

BUSY_MS = 10_000
LOCK_TIMEOUT_MS = 30_000
STATEMENT_TIMEOUT_MS = 600_000

SQLITE_PRAGMAS = {
    "journal_mode": "WAL",
    "synchronous": "FULL",  # NORMAL may lose acknowledged entries at power loss, and killing the process never shows it
    "foreign_keys": "ON",
    "busy_timeout": str(BUSY_MS),
}
POSTGRESQL_SETTINGS = {
    "synchronous_commit": "on",
    "lock_timeout": str(LOCK_TIMEOUT_MS),
    "statement_timeout": str(STATEMENT_TIMEOUT_MS),
    "timezone": "UTC",
}

PASSWORD = re.compile(r"(//[^/@:]*:).*@")
"""A password in what is meant as an address, whether or not the rest of it can be read."""


class DatabaseUrlUnknown(Exception):
    """The text names no database that RepairLog can open. `facts`: `got`, without any password."""

    code = "database_url_unknown"

    def __init__(self, got: str) -> None:
        super().__init__(got)
        self.facts = {"got": got}


def read_url(url: str) -> URL:
    """The address of a database: `sqlite:///FILE`, `postgresql://` or `postgresql+psycopg://`.

    Raises DatabaseUrlUnknown.
    """
    try:
        read = make_url(url)
    except (ArgumentError, ValueError) as error:  # ValueError: a port that is no number
        raise DatabaseUrlUnknown(PASSWORD.sub(r"\1***@", url)) from error
    if read.drivername in ("postgresql", "postgresql+psycopg"):
        return read.set(drivername="postgresql+psycopg")
    if read.drivername in ("sqlite", "sqlite+pysqlite") and read.database not in (None, "", ":memory:"):
        return read.set(drivername="sqlite")
    raise DatabaseUrlUnknown(read.render_as_string())


def make_engine(url: URL) -> Engine:
    """An engine with RepairLog's settings on every connection.

    The values of a statement that fails are left out of the error: a caller's name would stand in the log with it.
    """
    if url.get_backend_name() == "sqlite":
        return _sqlite(url)
    options = " ".join(f"-c {name}={value}" for name, value in POSTGRESQL_SETTINGS.items())
    return create_engine(
        url,
        connect_args={"options": options},
        hide_parameters=True,
        pool_pre_ping=True,
        pool_size=8,
        max_overflow=8,
    )


def _sqlite(url: URL) -> Engine:
    engine = create_engine(
        url,
        connect_args={"timeout": BUSY_MS / 1000},
        hide_parameters=True,
        poolclass=QueuePool,
        pool_size=8,
        max_overflow=24,
    )

    @event.listens_for(engine, "connect")
    def _settings(dbapi: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
        assert isinstance(dbapi, sqlite3.Connection)
        dbapi.isolation_level = None  # BEGIN is ours, below
        for name, value in SQLITE_PRAGMAS.items():
            dbapi.execute(f"PRAGMA {name}={value}")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        connection.exec_driver_sql("BEGIN " + connection.get_execution_options().get("sqlite_begin", "DEFERRED"))

    return engine


def sqlite_file(url: URL) -> Path | None:
    """The file of an SQLite database; None on PostgreSQL."""
    return Path(url.database) if url.get_backend_name() == "sqlite" and url.database else None
