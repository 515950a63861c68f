"""`repairlog rebuild`: every table worked out from the journal again, to compare or to write."""

from __future__ import annotations

import dataclasses
import json
import sys

import click

from repairlog.cli import options
from repairlog.records import rebuild as tables_of
from repairlog.records.post import fold_stale
from repairlog.records.store import Store
from repairlog.words import _, troubles
from repairlog.words.journal import difference_sentence


@click.command(
    "rebuild", help=_("Write every table anew that the journal can give back; callers' data are not touched.")
)
@click.option("--check", "compare", is_flag=True, help=_("Compare only, cell by cell; nothing is written."))
@click.option("--stale", is_flag=True, help=_("Work out only what waits for it; others go on writing."))
@click.option("--list", "list_only", is_flag=True, help=_("Say which tables there are, and of which kind."))
@options.database
@options.as_json
def rebuild(*, compare: bool, stale: bool, list_only: bool, database_url: str | None, as_json: bool) -> int:
    if compare + stale + list_only > 1:
        raise click.UsageError(_("--check, --stale and --list exclude each other; give one of them"))
    if list_only:
        return _list(as_json=as_json)
    try:
        with options.opened(database_url) as store:
            if compare:
                return _compare(store, as_json=as_json)
            rows = fold_stale(store, on_progress=_progress) if stale else tables_of.rebuild(store)
    except (tables_of.JournalAltered, tables_of.TablesMissing) as found:
        click.echo(" ".join(troubles.sentence(found.code, found.facts)), err=True)
        return 1
    word = "worked_out" if stale else "rows"
    told = _("{rows} leaks were worked out again") if stale else _("{rows} rows were written from the journal")
    click.echo(json.dumps({word: rows}) if as_json else told.format(rows=rows))
    return 0


def _progress(done: int) -> None:
    if sys.stderr.isatty():
        click.echo(_("{done} leaks so far …").format(done=done), err=True)


def _list(*, as_json: bool) -> int:
    every = tables_of.tables()
    if as_json:
        click.echo(json.dumps([{"table": name, "kind": kind} for name, kind in every]))
    else:
        click.echo("\n".join(f"{kind:8}{name}" for name, kind in every))
    return 0


def _compare(store: Store, *, as_json: bool) -> int:
    found = tables_of.check(store)
    for difference in found.differences:
        click.echo(json.dumps(_fields(difference)) if as_json else _line(difference))
    if not found.differences and not as_json:
        click.echo(_("{rows} rows stand as the journal says").format(rows=found.rows))
    if found.differences and not as_json:
        click.echo(_summary(found.differences), err=True)
        if any(each.because == "older_engine" for each in found.differences):
            click.echo(_("`repairlog upgrade` works out anew what an older release worked out."), err=True)
    return 1 if found.differences else 0


def _fields(difference: tables_of.Difference) -> dict[str, object]:
    return dataclasses.asdict(difference) | {"row": dict(difference.row)}


def _line(difference: tables_of.Difference) -> str:
    row = " ".join(f"{name}={value}" for name, value in difference.row.items())
    return difference_sentence(
        table=difference.table,
        row=row,
        column=difference.column,
        stands=difference.stands,
        should=difference.should,
        because=difference.because,
    )


def _summary(differences: tuple[tables_of.Difference, ...]) -> str:
    counts = {why: sum(d.because == why for d in differences) for why in ("wrong", "stale", "older_engine")}
    return _("{wrong} wrong, {stale} waiting to be worked out again, {older_engine} of an older release").format(
        **counts
    )
