"""Options that several commands share."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from repairlog.records.store import Store, open_store
from repairlog.rulebooks.handed import rulebooks_of
from repairlog.settings import read_settings
from repairlog.words import _

database = click.option(
    "--database",
    "database_url",
    metavar="URL",
    help=_("The book's address, such as sqlite:///book.db; else REPAIRLOG_DATABASE_URL, else your data folder."),
)
as_json = click.option("--json", "as_json", is_flag=True, help=_("Print JSON."))


def url_of(database_url: str | None) -> str:
    """The address that was given, or the usual one."""
    return read_settings(os.environ, database_url=database_url).database_url


def files_of(database_url: str | None) -> Path:
    """The folder of the book's pictures and other files."""
    return read_settings(os.environ, database_url=database_url).files


@contextmanager
def opened(database_url: str | None) -> Iterator[Store]:
    """The book at that address, closed at the end of the block."""
    settings = read_settings(os.environ, database_url=database_url)
    store = open_store(settings.database_url, rulebooks=rulebooks_of(settings.rulebooks))
    try:
        yield store
    finally:
        store.close()
