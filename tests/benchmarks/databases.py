"""Databases to measure on: with the settings of production, fsync too, and copies of one another."""

from __future__ import annotations

import os
import shutil
import tempfile
import uuid
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from repairlog.records.store.migrate import migrate
from tests.makers import databases, postgresql

SERVER = "REPAIRLOG_TEST_POSTGRESQL"


@dataclass(frozen=True, slots=True)
class Place:
    """Where the databases of a run lie. `fresh`: the URL of a new one, migrated and empty; `copied`: that of a copy of
    one that nobody has open. All of them are gone at the end."""

    fresh: Callable[[], str]
    copied: Callable[[str], str]


@contextmanager
def place(database: str) -> Iterator[Place]:
    """Room for databases of that kind, `sqlite` or `postgresql`: the server named in the environment, else our own."""
    if database == "sqlite":
        with tempfile.TemporaryDirectory(prefix="repairlog-benchmark-") as folder:
            yield _files(Path(folder))
    elif server := os.environ.get(SERVER):
        yield from _on(server)
    else:
        with postgresql.running(durable=True) as cluster:
            yield from _on(cluster.url)


def _files(folder: Path) -> Place:
    def file() -> Path:
        return folder / f"{uuid.uuid4().hex}.db"

    def fresh() -> str:
        migrate(url := f"sqlite:///{file()}")
        return url

    def copied(url: str) -> str:
        return f"sqlite:///{shutil.copy(url.removeprefix('sqlite:///'), file())}"

    return Place(fresh, copied)


def _on(server: str) -> Iterator[Place]:
    with ExitStack() as made:

        def create(like: str) -> str:
            return made.enter_context(databases.database(server, like=like))

        def fresh() -> str:
            migrate(url := create("template1"))
            return url

        def copied(url: str) -> str:
            return create(url.partition("?")[0].rsplit("/", 1)[1])

        yield Place(fresh, copied)
