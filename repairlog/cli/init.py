"""`repairlog init`: a new book, with its operator, first operating area and first person, who holds every role."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

import click

from repairlog import units
from repairlog.access import EVERYTHING, Actor
from repairlog.cli import options
from repairlog.cli.passwords import new_password
from repairlog.clock import now
from repairlog.entries.entry import Moments
from repairlog.entries.ids import new_uuid7, read_id
from repairlog.entries.operator import INSPECTOR, ROLES
from repairlog.intake import Complaint, NotUnderstood
from repairlog.intake.call import understand
from repairlog.intake.said import said_of
from repairlog.intake.understood import is_area_code, is_zone
from repairlog.intake.when import moment_in
from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.post import post
from repairlog.records.queries.settings import operator_zone
from repairlog.records.store import NotReady, Store, open_store
from repairlog.records.store.migrate import migrate
from repairlog.words import _
from repairlog.words.complaints import sentence
from repairlog.words.measures import sentence as of_measure

NAMES = {0: "--operator", 1: "--area", 2: "--admin-name"}
"""The option that each entry of the call has its name from."""


def _zone(_context: click.Context, _parameter: click.Parameter, zone: str) -> str:
    if not is_zone(zone):
        expected = _("'{zone}' is no time zone; one is written America/New_York or Europe/London").format(zone=zone)
        raise click.BadParameter(expected)
    return zone


def _code(_context: click.Context, _parameter: click.Parameter, code: str) -> str:
    if not is_area_code(code) or len(code) > 8:
        raise click.BadParameter(_("'{code}' is no code; up to eight letters and digits, such as ES").format(code=code))
    return code.upper()


def _elevation(_context: click.Context, _parameter: click.Parameter, typed: str) -> str:
    try:
        units.read(typed, "elevation")
    except units.NotUnderstood as unclear:
        raise click.BadParameter(" ".join(of_measure(unclear.code, unclear.facts))) from unclear
    return typed


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
    callback=_elevation,
    show_default=True,
    metavar="HEIGHT",
    help=_("Its height above the sea, from which the local atmosphere follows."),
)
@click.option("--admin-name", prompt=_("Your name"), metavar="NAME", help=_("The first person, who holds every role."))
@click.option(
    "--admin-password-file",
    "password_file",
    metavar="FILE",
    help=_("A file whose first line is that person's password, or - for what is piped in; else it is asked for."),
)
@options.database
def init(
    *,
    operator: str,
    area: str,
    area_code: str,
    zone: str,
    elevation: str,
    admin_name: str,
    password_file: str | None,
    database_url: str | None,
) -> None:
    received = now()
    call = _call(received, operator=operator, area=area, area_code=area_code, zone=zone, elevation=elevation)
    call.append(_person(received, admin_name, on=call[0]["happened"]))
    _demand_read(call)  # before anything is made
    url = options.url_of(database_url)
    demand_no_book(url)
    password = new_password(password_file)
    migrate(url)
    with options.opened(url) as store:
        _post(store, call, received=received)
        _let_in(store, read_id(call[-1]["id"]), name=admin_name, password=password, at=received)
    told = _("The book of {operator} is open, with the area {area} ({code}).")
    click.echo(told.format(operator=operator, area=area, code=area_code))
    click.echo(_how_to_come_in(admin_name, password))


def _let_in(store: Store, person: UUID, *, name: str, password: str | None, at: datetime) -> None:
    if password is not None:
        make_sign_in(store, person=person, name=name, password=password, at=at)


def _how_to_come_in(name: str, password: str | None) -> str:
    if password is not None:
        return _("{name} signs in with that name and password; `repairlog serve` serves the pages.").format(name=name)
    later = _("Nobody can sign in yet, since no password was given: repairlog sign-in make {name}")
    return later.format(name=shlex.quote(name))


def demand_no_book(url: str) -> None:
    """Before anything is made or brought forward: where a book is already, it is left as it is."""
    try:
        store = open_store(url)
    except NotReady as lack:
        if lack.code in ("no_database", "no_book"):
            return
        raise
    try:
        with store.reading() as tx:
            if operator_zone(EVERYTHING, tx) is not None:
                raise click.UsageError(_("there is a book in this database already; nothing was changed"))
    finally:
        store.close()


def _call(
    received: datetime, *, operator: str, area: str, area_code: str, zone: str, elevation: str
) -> list[dict[str, Any]]:
    day = {"happened": moment_in(received, zone).on.isoformat(), "zone": zone}
    area_opened = {"name": area, "code": area_code, "elevation": elevation}
    return [
        {"kind": "operator_opened", "id": str(new_uuid7(received)), "name": operator} | day,
        {"kind": "area_opened", "id": str(new_uuid7(received))} | area_opened | day,
    ]


def _person(received: datetime, name: str, *, on: str) -> dict[str, Any]:
    roles = [{"key": role, "role": role, "from_on": on} for role in ROLES if role != INSPECTOR]
    return {"kind": "person_added", "id": str(new_uuid7(received)), "name": name, "roles": roles, "happened": on}


def _demand_read(call: Sequence[dict[str, Any]]) -> None:
    _demand_none([complaint for place, raw in enumerate(call) for complaint in said_of(raw, place)[1]])


def _post(store: Store, call: Sequence[dict[str, Any]], *, received: datetime) -> None:
    actor, moments = Actor(person=read_id(call[-1]["id"]), sure="system"), Moments(received=received)
    try:
        post(store, understand(store, call, actor=actor, moments=moments), actor=actor, moments=moments)
    except NotUnderstood as problem:
        _demand_none(problem.complaints)


def _demand_none(complaints: Sequence[Complaint]) -> None:
    if complaints:
        raise click.UsageError("\n".join(map(_of_an_option, complaints)))


def _of_an_option(complaint: Complaint) -> str:
    """The complaint in a sentence, after the option that it is about where that is a name."""
    told = " ".join(sentence(complaint))
    if complaint.field != "name":
        return told
    return _("Invalid value for '{option}': {told}").format(option=NAMES[complaint.entry], told=told)
