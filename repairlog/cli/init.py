"""`repairlog init`: a new book, with its operator, first operating area and first person, who holds every role."""

from __future__ import annotations

from typing import Any

import click

from repairlog.access import EVERYTHING, Actor
from repairlog.cli import options
from repairlog.clock import now
from repairlog.entries.entry import Moments
from repairlog.entries.ids import new_uuid7, read_id
from repairlog.entries.operator import ROLES
from repairlog.intake import NotUnderstood
from repairlog.intake.record import understand
from repairlog.intake.understood import is_zone
from repairlog.intake.when import moment_in
from repairlog.records.post import post
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import Store, open_store
from repairlog.records.store.migrate import migrate
from repairlog.words import _
from repairlog.words.complaints import sentence


def _zone(_context: click.Context, _parameter: click.Parameter, zone: str) -> str:
    if not is_zone(zone):
        expected = _("'{zone}' is no time zone; one is written America/New_York or Europe/London").format(zone=zone)
        raise click.BadParameter(expected)
    return zone


def _code(_context: click.Context, _parameter: click.Parameter, code: str) -> str:
    if not code.isalnum() or not code.isascii() or len(code) > 8:
        raise click.BadParameter(_("'{code}' is no code; up to eight letters and digits, such as ES").format(code=code))
    return code.upper()


@click.command("init", help=_("Make a new book; what is not given is asked for."))
@click.option("--operator", prompt=_("Name of the operator"), metavar="NAME", help=_("The operator's name."))
@click.option("--area", prompt=_("Name of its first operating area"), metavar="NAME", help=_("The first area's name."))
@click.option(
    "--area-code",
    prompt=_("Short code of the area, which its leaks' numbers start with"),
    callback=_code,
    metavar="CODE",
    help=_("A short code, such as ES, that the numbers of its leaks start with."),
)
@click.option(
    "--zone",
    prompt=_("Time zone"),
    callback=_zone,
    metavar="ZONE",
    help=_("The time zone whose days count, such as America/New_York."),
)
@click.option(
    "--elevation",
    prompt=_("Height of the area above the sea"),
    default="0 ft",
    show_default=True,
    metavar="HEIGHT",
    help=_("Its height above the sea, from which the local atmosphere follows."),
)
@click.option("--admin-name", prompt=_("Your name"), metavar="NAME", help=_("The first person, who holds every role."))
@options.database
def init(
    *, operator: str, area: str, area_code: str, zone: str, elevation: str, admin_name: str, database_url: str | None
) -> None:
    url = options.url_of(database_url)
    migrate(url)
    store = open_store(url)
    try:
        _demand_empty(store)
        _open(store, operator=operator, area=area, area_code=area_code, zone=zone, elevation=elevation, name=admin_name)
    finally:
        store.close()
    click.echo(
        _("The book of {operator} is open, with the area {area} ({code}).").format(
            operator=operator, area=area, code=area_code
        )
    )


def _demand_empty(store: Store) -> None:
    with store.reading() as tx:
        if operator_zone(EVERYTHING, tx) is not None:
            raise click.UsageError(_("there is a book in this database already; nothing was changed"))


def _open(store: Store, *, operator: str, area: str, area_code: str, zone: str, elevation: str, name: str) -> None:
    received = now()
    today = moment_in(received, zone).on.isoformat()
    ids = {what: str(new_uuid7(received)) for what in ("operator", "area", "person")}
    roles = [{"key": role, "role": role, "from_on": today} for role in ROLES]
    call: list[dict[str, Any]] = [
        {"kind": "operator_opened", "id": ids["operator"], "name": operator, "zone": zone},
        {
            "kind": "area_opened",
            "id": ids["area"],
            "name": area,
            "code": area_code,
            "zone": zone,
            "elevation": elevation,
        },
        {"kind": "person_added", "id": ids["person"], "name": name, "roles": roles},
    ]
    whole = [entry | {"happened": today} for entry in call]
    actor = Actor(person=read_id(ids["person"]), sure="system")
    try:
        moments = Moments(received=received)
        post(store, understand(store, whole, actor=actor, moments=moments), actor=actor, moments=moments)
    except NotUnderstood as problem:
        raise click.UsageError("\n".join(" ".join(sentence(each)) for each in problem.complaints)) from problem
