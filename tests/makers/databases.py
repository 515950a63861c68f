"""Databases on a PostgreSQL server, each there for a while and then gone."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from contextlib import contextmanager

import psycopg
from psycopg import sql

BY_FILES = " STRATEGY FILE_COPY"
"""How a copy is made: file by file, in half the time that it takes to write each page down in the log first. Since
PostgreSQL 15; before, there was no other way."""


@contextmanager
def database(server: str, *, like: str = "template1") -> Iterator[str]:
    """The URL of a new database on the server at that URL, a copy of the one named `like`, dropped afterwards."""
    name = f"repairlog_{uuid.uuid4().hex}"
    with psycopg.connect(server, autocommit=True) as admin:
        making = f"CREATE DATABASE {{}} TEMPLATE {{}}{BY_FILES if admin.info.server_version >= 150_000 else ''}"
        admin.execute(sql.SQL(making).format(*map(sql.Identifier, (name, like))))
        try:
            yield beside(server, name)
        finally:
            drop(admin, name)


def drop(admin: psycopg.Connection, name: str) -> None:
    """Drop a database, whoever is connected to it; nothing happens where it is gone already."""
    admin.execute(sql.SQL("DROP DATABASE IF EXISTS {} WITH (FORCE)").format(sql.Identifier(name)))


def beside(server: str, name: str) -> str:
    """The same server's URL, for another database; whatever follows a `?` stays."""
    address, _, options = server.partition("?")
    return address.rsplit("/", 1)[0] + "/" + name + (f"?{options}" if options else "")
