"""`repairlog sign-in`: who may come in with a name and a password, said by whoever runs the machine."""

from __future__ import annotations

import click

from repairlog.cli import options, passwords
from repairlog.cli.person import person_meant
from repairlog.clock import now
from repairlog.records.beside.sign_ins import (
    SignInUnknown,
    can_be_a_name,
    change_password,
    close_sign_in,
    make_sign_in,
    sign_in_named,
)
from repairlog.records.store import Store
from repairlog.words import _


@click.group(help=_("Let a person sign in, change a password, or close a sign-in."))
def sign_in() -> None:
    """The group that all three stand in."""


@sign_in.command("make", help=_("Let a person on the books sign in under NAME."))
@click.argument("name")
@click.option(
    "--person", metavar="NAME-or-id", help=_("Whose it is, by name or id; left out, the person of that very NAME.")
)
@passwords.file
@options.database
def make(*, name: str, person: str | None, password_file: str | None, database_url: str | None) -> None:
    _demand_name(name)
    with options.opened(database_url) as store:
        whose = person_meant(store, person or name)
        password = passwords.demanded_password(password_file)
        make_sign_in(store, person=whose.id, name=name, password=password, at=now())
    click.echo(_("{person} signs in as {name}.").format(person=whose.name, name=name))


@sign_in.command("password", help=_("Give the sign-in NAME another password; whoever is in by it is signed out."))
@click.argument("name")
@passwords.file
@options.database
def password(*, name: str, password_file: str | None, database_url: str | None) -> None:
    with options.opened(database_url) as store:
        _demand_open(store, name)  # before anybody is asked for a password
        change_password(store, name, password=passwords.demanded_password(password_file))
    click.echo(_("{name} has another password, and is signed out everywhere.").format(name=name))


@sign_in.command("close", help=_("Close the sign-in NAME: nobody comes in by it, and whoever is in is signed out."))
@click.argument("name")
@options.database
def close(*, name: str, database_url: str | None) -> None:
    with options.opened(database_url) as store:
        close_sign_in(store, name, at=now())
    click.echo(_("{name} is closed, and signed out everywhere.").format(name=name))


def _demand_open(store: Store, name: str) -> None:
    found = sign_in_named(store, name)
    if found is None or found.closed:
        raise SignInUnknown(name)


def _demand_name(name: str) -> None:
    if len(name) > 200 or not can_be_a_name(name):
        raise click.BadParameter(
            _("a name to sign in with has 1 to 200 characters that can be seen"), param_hint="NAME"
        )
