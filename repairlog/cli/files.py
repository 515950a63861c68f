"""`repairlog files`: files that came and that no entry has named for 90 days."""

from __future__ import annotations

import json

import click

from repairlog.cli import options
from repairlog.clock import now
from repairlog.records.beside.blobs import drop_unnamed, unnamed
from repairlog.words import _, of_number


@click.group(help=_("Say which files no entry names, and delete them."))
def files() -> None:
    """The group that it stands in."""


@files.command("due", help=_("Say how many files no entry has named for 90 days; with --delete, delete them."))
@click.option("--delete", is_flag=True, help=_("Delete them."))
@options.database
@options.as_json
def due(*, delete: bool, database_url: str | None, as_json: bool) -> None:
    with options.opened(database_url) as store:
        if delete:
            number = drop_unnamed(store, options.files_of(database_url), at=now())
        else:
            number = len(unnamed(store, at=now()))
    if delete:
        told = of_number("{number} file was deleted", "{number} files were deleted", number=number)
    else:
        told = of_number("{number} file is due to be deleted", "{number} files are due to be deleted", number=number)
    click.echo(json.dumps({"files": number, "deleted": delete}) if as_json else told.format(number=number))
