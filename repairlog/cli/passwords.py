"""A new password, from a file, from what is piped in, or asked for: never as a word of the command, where others on the
machine could read it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from repairlog.records.beside.passwords import demand_fit
from repairlog.words import _

STANDARD_INPUT = "-"

file = click.option(
    "--password-file",
    metavar="FILE",
    help=_("A file whose first line is the password, or - for what is piped in; else it is asked for."),
)


def new_password(file: str | None) -> str | None:
    """The first line of that file, or what is typed twice unseen; None where there is neither, nor a terminal.

    Raises PasswordUnfit, OSError where the file cannot be read, and click.Abort where whoever is asked goes away.
    """
    if file is not None:
        password = _first_line(file)
    elif sys.stdin.isatty():
        password = click.prompt(_("Password"), hide_input=True, confirmation_prompt=_("The same again"))
    else:
        return None
    demand_fit(password)
    return password


def demanded_password(file: str | None) -> str:
    """The same, where there must be one. Raises click.UsageError where nobody can be asked."""
    if (password := new_password(file)) is None:
        raise click.UsageError(_("no terminal to ask for the password at; give it with --password-file"))
    return password


def _first_line(file: str) -> str:
    try:
        if file == STANDARD_INPUT:
            return sys.stdin.readline().rstrip("\r\n")
        with Path(file).open(encoding="utf-8-sig") as lines:
            return lines.readline().rstrip("\r\n")
    except UnicodeDecodeError as error:
        raise click.UsageError(_("{file} is no text in UTF-8").format(file=file)) from error
