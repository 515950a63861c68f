"""`repairlog serve`: the pages and the interface for programs, to this machine alone."""

from __future__ import annotations

import os
from collections.abc import Callable

import click

from repairlog.app import serving
from repairlog.cli import options
from repairlog.records.rebuild import worked_out_by_older
from repairlog.settings import read_settings
from repairlog.words import _


def serve(url: str, *, port: int = 0, processes: int = 1, on_ready: Callable[[str], None]) -> None:
    """Serve the book at that address until a signal to end comes (SIGTERM, SIGINT), then come back.

    The other settings are the environment's. `port`: 0 takes a free one. `on_ready`: called once, from a thread of its
    own, with the address `http://127.0.0.1:PORT/` when it answers. Raises as `app.serving.serve` does.
    """
    settings = read_settings(os.environ, database_url=url)
    with options.opened(settings.database_url) as store:
        if worked_out_by_older(store):
            click.echo(
                _("An older release worked out rows of this book: stop this, and run `repairlog upgrade`."), err=True
            )
    serving.serve(settings, port=port, processes=processes, on_ready=on_ready)


@click.command("serve", help=_("Serve the pages to this machine, until it is told to stop."))
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8000,
    show_default=True,
    help=_("The port to listen on; 0 takes a free one."),
)
@click.option(
    "--processes",
    type=click.IntRange(1, 64),
    default=1,
    show_default=True,
    help=_("How many processes answer; more than one on PostgreSQL alone."),
)
@options.database
def command(*, port: int, processes: int, database_url: str | None) -> None:
    serve(options.url_of(database_url), port=port, processes=processes, on_ready=click.echo)
