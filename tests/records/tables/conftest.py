"""The same tables made in two ways: by the migrations, and afresh from what the package declares."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import Engine

from repairlog.records.store.engine import make_engine, read_url
from repairlog.records.tables import METADATA, trigger_statements
from tests.makers import databases


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
    with databases.database(request.getfixturevalue("postgresql_server")) as url:
        yield from _made(url)


def _made(url: str) -> Iterator[Engine]:
    engine = make_engine(read_url(url))
    with engine.begin() as connection:
        METADATA.create_all(connection)
        for statement in trigger_statements(engine.dialect.name):
            connection.exec_driver_sql(statement)
    yield engine
    engine.dispose()
