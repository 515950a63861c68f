"""`repairlog privacy`: callers' personal data that has been kept as long as the operator's setting says."""

from __future__ import annotations

import json
import os

import click

from repairlog.cli import options
from repairlog.clock import now
from repairlog.records.beside.private import due as values_due
from repairlog.records.beside.private import remove_due
from repairlog.settings import PRIVATE_DAYS, read_settings
from repairlog.words import _, of_number


@click.group(help=_("Say which personal data is due to go, and remove it."))
def privacy() -> None:
    """The group that it stands in."""


@privacy.command(
    "due",
    help=_(
        "Say which callers' personal data has been kept as long as REPAIRLOG_PRIVATE_DAYS says; with --delete, remove"
        " it. Its digest stays, with the day and the reason; every proof still holds. Backups made before still hold"
        " it."
    ),
)
@click.option("--delete", is_flag=True, help=_("Remove it."))
@options.database
@options.as_json
def due(*, delete: bool, database_url: str | None, as_json: bool) -> None:
    days = read_settings(os.environ, database_url=database_url).private_days
    if days is None:
        _say_not_set(as_json=as_json)
        return
    at = now()
    with options.opened(database_url) as store:
        found = values_due(store, days=days, at=at)
        removed = remove_due(store, days=days, at=at) if delete else 0
    if as_json:
        rows = [{"entry": str(each.entry), "field": each.path, "came_on": each.came_on} for each in found]
        click.echo(json.dumps({"days": days, "due": rows, "removed": removed}))
        return
    if delete:
        told = of_number("{number} value was removed", "{number} values were removed", number=removed)
        click.echo(told.format(number=removed))
        return
    line = _("entry {entry}, {field}: came in on {day}")
    for each in found:
        click.echo(line.format(entry=each.entry, field=each.path, day=each.came_on))
    told = of_number("{number} value is due to be removed", "{number} values are due to be removed", number=len(found))
    click.echo(told.format(number=len(found)))


def _say_not_set(*, as_json: bool) -> None:
    """Without the setting nothing is due, and whoever asks is told why."""
    if as_json:
        click.echo(json.dumps({"days": None, "due": [], "removed": 0}))
        return
    told = _("Nothing is due: {setting} is not set. Say there how many days callers' personal data is kept.")
    click.echo(told.format(setting=PRIVATE_DAYS))
