"""A full invented book on either database, made once for all tests of a file; each test puts back what it altered."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from repairlog.records.store import Store, open_store
from tests.makers import databases, full_book
from tests.makers.rulebooks import RULEBOOKS


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def full(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[full_book.FullBook]:
    """A book with every kind of entry and a row in every table that is worked out."""
    made = _sqlite if request.param == "sqlite" else _postgresql
    yield from made(request, tmp_path_factory)


def _sqlite(request: pytest.FixtureRequest, folders: pytest.TempPathFactory) -> Iterator[full_book.FullBook]:
    template: Path = request.getfixturevalue("sqlite_template")
    file = shutil.copy(template, folders.mktemp("full") / "repairlog.db")
    yield from _filled(f"sqlite:///{file}")


def _postgresql(request: pytest.FixtureRequest, folders: pytest.TempPathFactory) -> Iterator[full_book.FullBook]:
    server: str = request.getfixturevalue("postgresql_server")
    template: str = request.getfixturevalue("postgresql_template")
    with databases.database(server, like=template) as url:
        yield from _filled(url)


def _filled(url: str) -> Iterator[full_book.FullBook]:
    store: Store = open_store(url, rulebooks=RULEBOOKS)
    yield full_book.filled(store)
    store.close()
