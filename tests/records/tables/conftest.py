"""The same tables made in two ways: by the migrations, and afresh from what the package declares."""

from __future__ import annotations

import uuid
from collections.abc import Iterator

import psycopg
import pytest
from psycopg import sql
from sqlalchemy import Engine

from repairlog.records.store.engine import make_engine, read_url
from repairlog.records.tables import METADATA, trigger_statements


@pytest.fixture
def migrated(database_url: str) -> Iterator[Engine]:
    """A database that the migrations made, without a store over it."""
    engine = make_engine(read_url(database_url))
    yield engine
    engine.dispose()


@pytest.fixture
def made_afresh(database_url: str, request: pytest.FixtureRequest) -> Iterator[Engine]:
    """A database of the same kind made from the declared tables and triggers at once."""
    if database_url.startswith("sqlite"):
        folder = request.getfixturevalue("tmp_path")
        yield from _made(f"sqlite:///{folder}/afresh.db")
        return
    name = f"afresh_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(request.getfixturevalue("postgresql_server"), autocommit=True) as admin:
        admin.execute(sql.SQL("CREATE DATABASE {}").format(sql.Identifier(name)))
        yield from _made(database_url.rsplit("/", 1)[0] + "/" + name)
        admin.execute(sql.SQL("DROP DATABASE {} WITH (FORCE)").format(sql.Identifier(name)))


def _made(url: str) -> Iterator[Engine]:
    engine = make_engine(read_url(url))
    with engine.begin() as connection:
        METADATA.create_all(connection)
        for statement in trigger_statements(engine.dialect.name):
            connection.exec_driver_sql(statement)
    yield engine
    engine.dispose()
