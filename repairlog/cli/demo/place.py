"""Where a demo's book lies: a file that appears whole or not at all, and that is moved aside, never written over."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from datetime import date
from pathlib import Path

import click

from repairlog.records.store import Busy, NotReady, open_store
from repairlog.records.store.file_lock import file_held
from repairlog.records.store.one_server import the_one_server
from repairlog.words import _

NAME = "demo.db"
FILES = f"{NAME}.files"
"""Its pictures, where no other folder is set for them: they lie beside it, and go where it goes."""

MAKING = "demo-making"
"""A folder beside it, in which a book is filled before it gets its name."""

PATIENCE = 60.0
"""Seconds to wait for another process that makes one in the same folder."""


def url_of(file: Path) -> str:
    """The address of the book in that file."""
    return f"sqlite:///{file.absolute()}"


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Within the block nobody else makes a demo in that folder, nor writes in the one there. Raises store.Busy."""
    folder.mkdir(parents=True, exist_ok=True)
    held = file_held(folder / f"{NAME}.lock", patience=PATIENCE)
    try:
        held.__enter__()
    except TimeoutError as error:
        raise Busy from error
    try:
        yield
    finally:
        held.__exit__(None, None, None)


def make(folder: Path, *, fill: Callable[[str], None], on: date) -> Path | None:
    """Make the folder's demo by filling a new book, and give it its name; where one is there already it is moved aside
    first, and its new place comes back. `on`: today, for its name.

    Raises what `fill` raises, and ServedAlready; the demo that is there then stays as it is.
    """
    making, file = folder / MAKING, folder / NAME
    shutil.rmtree(making, ignore_errors=True)  # what a process left behind that was ended meanwhile
    with the_one_server(url_of(file)):
        making.mkdir()
        try:
            fill(url_of(making / NAME))
            aside = _moved_aside(file, on=on) if file.exists() else None
            if (making / FILES).exists():
                shutil.copytree(making / FILES, folder / FILES, dirs_exist_ok=True)
            (making / NAME).rename(file)
        finally:
            shutil.rmtree(making, ignore_errors=True)
    return aside


def _moved_aside(file: Path, *, on: date) -> Path:
    with suppress(NotReady):  # of another release, or no book at all: it is kept all the same
        open_store(url_of(file)).close()  # whoever closes it last leaves nothing beside the file
    if file.with_name(f"{NAME}-wal").exists():
        raise click.UsageError(_("{file} is open in another program; end that one first").format(file=file))
    names = (f"demo-{on}{number}.db" for number in ("", *(f"-{count}" for count in range(2, 1000))))
    aside = next(place for name in names if not (place := file.with_name(name)).exists())
    if (files := file.with_name(FILES)).exists():
        files.rename(aside.with_name(f"{aside.name}.files"))
    return file.rename(aside)
