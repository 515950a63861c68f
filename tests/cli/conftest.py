"""What the tests of the command line ask for: a way to say words to it, and a book made by it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from repairlog import cli
from tests.makers.command import NEW_BOOK, Answer

Say = Callable[..., Answer]


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Say:
    """Say words to the command in this process."""

    def spoken(*words: str) -> Answer:
        capsys.readouterr()
        code = cli.run(list(words))
        told = capsys.readouterr()
        return Answer(code, told.out, told.err)

    return spoken


@pytest.fixture
def made(say: Say, database_url: str) -> str:
    """The address of a book that `init` made, on either database."""
    assert say("init", *NEW_BOOK, "--database", database_url).code == 0
    return database_url


@pytest.fixture
def made_on_sqlite(say: Say, sqlite_url: str) -> str:
    """The address of a book that `init` made in an SQLite file."""
    assert say("init", *NEW_BOOK, "--database", sqlite_url).code == 0
    return sqlite_url


@pytest.fixture
def made_on_postgresql(say: Say, postgresql_url: str) -> str:
    """The address of a book that `init` made in PostgreSQL."""
    assert say("init", *NEW_BOOK, "--database", postgresql_url).code == 0
    return postgresql_url
