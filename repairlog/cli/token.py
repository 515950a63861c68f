"""`repairlog token`: what programs show when they send entries in a person's name."""

from __future__ import annotations

import json

import click

from repairlog.access import EVERYTHING
from repairlog.cli import options
from repairlog.cli.person import person_meant
from repairlog.clock import now
from repairlog.entries.moments import moment_text
from repairlog.records.beside.tokens import Listed, close_token, make_token, mark_of, tokens
from repairlog.records.queries.people import people_with
from repairlog.records.store import Store
from repairlog.words import _


@click.group(help=_("Make, list or close what programs show when they send entries."))
def token() -> None:
    """The group that all three stand in."""


@token.command("make", help=_("A new token, in the name of the person NAME (a name or an id). It is shown this once."))
@click.argument("name")
@click.option("--for", "what", required=True, metavar="WHAT", help=_("What it is for, such as a program's name."))
@options.database
@options.as_json
def make(*, name: str, what: str, database_url: str | None, as_json: bool) -> None:
    if not what.strip() or len(what) > 200 or not what.isprintable():
        raise click.BadParameter(_("say in 1 to 200 characters what it is for"), param_hint="--for")
    with options.opened(database_url) as store:
        person = person_meant(store, name)
        shown = make_token(store, person=person.id, what=what.strip(), at=now())
    if as_json:
        told = {"token": shown, "mark": mark_of(shown), "person": person.name, "what": what.strip()}
        click.echo(json.dumps(told))
        return
    click.echo(shown)
    told_once = _("It is shown this once; it sends as {person}. `repairlog token close {mark}` closes it.")
    click.echo(told_once.format(person=person.name, mark=mark_of(shown)), err=True)


@token.command("list", help=_("Every token there is or was, by the mark under which it is closed."))
@options.database
@options.as_json
def list_tokens(*, database_url: str | None, as_json: bool) -> None:
    with options.opened(database_url) as store:
        lines = _lines(store)
    if as_json:
        click.echo(json.dumps(lines))
    elif not lines:
        click.echo(_("There are no tokens yet. `repairlog token make NAME --for WHAT` makes one."))
    for line in [] if as_json else lines:
        closed = _("closed {at}").format(at=line["closed_at"]) if line["closed_at"] else _("open")
        click.echo("  ".join((str(line["mark"]), str(line["made_at"]), closed, f"{line['person']}: {line['what']}")))


@token.command(
    "close", help=_("Close the token of that MARK, as `token list` shows it: no program sends by it any more.")
)
@click.argument("mark")
@options.database
def close(*, mark: str, database_url: str | None) -> None:
    with options.opened(database_url) as store:
        close_token(store, mark, at=now())
    click.echo(_("The token {mark} is closed.").format(mark=mark))


def _lines(store: Store) -> list[dict[str, str | None]]:
    listed = tokens(store)
    with store.reading() as tx:
        people = people_with(EVERYTHING, tx, ids={each.person for each in listed})
    names = {person.id: person.name for person in people}
    return [_line(each, names.get(each.person, str(each.person))) for each in listed]


def _line(token: Listed, person: str) -> dict[str, str | None]:
    return {
        "mark": token.mark,
        "person": person,
        "what": token.what,
        "made_at": moment_text(token.made_at),
        "closed_at": moment_text(token.closed_at) if token.closed_at else None,
    }
