"""`repairlog upgrade`: brings a book of an older release to this one, its tables and then what they hold."""

from __future__ import annotations

import json

import click

from repairlog.cli import options
from repairlog.records.rebuild import JournalAltered, TablesMissing, rebuild, worked_out_by_older
from repairlog.records.store import NotReady, open_store
from repairlog.records.store.migrate import migrate
from repairlog.records.store.one_server import the_one_server
from repairlog.words import _, troubles


@click.command(
    "upgrade",
    help=_(
        "Bring a book of an older release to this one: its tables, then every row that is worked out. Make a backup"
        " first, and stop what serves the book; the way back is that backup."
    ),
)
@options.database
@options.as_json
def upgrade(*, database_url: str | None, as_json: bool) -> int:
    try:
        rows = brought_up(options.url_of(database_url))
    except (JournalAltered, TablesMissing) as found:
        click.echo(" ".join(troubles.sentence(found.code, found.facts)), err=True)
        return 1
    told = _("{rows} rows were written from the journal") if rows else _("The book is of this release already.")
    click.echo(json.dumps({"rows": rows}) if as_json else told.format(rows=rows))
    return 0


def brought_up(url: str) -> int:
    """Bring the book at that address to this release; how many rows were written anew, 0 where it was there already.

    Raises what `open_store` raises but for an older release, ServedAlready, and what `rebuild` raises.
    """
    older_tables = _has_older_tables(url)
    if not older_tables and not _has_older_rows(url):
        return 0
    with the_one_server(url):
        if older_tables:
            click.echo(_("Bringing the tables to this release …"), err=True)
            migrate(url)
        click.echo(_("Working every row out from the journal …"), err=True)
        with options.opened(url) as store:
            return rebuild(store)


def _has_older_tables(url: str) -> bool:
    try:
        open_store(url).close()
    except NotReady as lack:
        if lack.code != "older_revision":
            raise
        return True
    return False


def _has_older_rows(url: str) -> bool:
    with options.opened(url) as store:
        return worked_out_by_older(store)
