"""`repairlog rules`: rulebooks that come with the release or are the operator's own, checked, listed and printed."""

from __future__ import annotations

import os
from collections.abc import Sequence
from datetime import date, datetime
from difflib import get_close_matches
from pathlib import Path

import click

from repairlog import shipped
from repairlog.rulebooks import Wrong, shelf_with
from repairlog.rulebooks.shelf import Shelf, files_of, looked_at
from repairlog.settings import read_settings
from repairlog.trade.rulebook import Rulebook, in_force, rules, to_be_confirmed
from repairlog.words import _
from repairlog.words.rulebooks import dropped_line, printed, status_word, wrong_line


@click.group(help=_("Check, list and print rulebooks."))
def command() -> None:
    """The group that all three stand in."""


@command.command("check", help=_("Read every rulebook of a file or folder, and say what is wrong and where."))
@click.argument("path", required=False, type=click.Path(exists=True, path_type=Path))
def check(*, path: Path | None) -> int:
    files, wrongs = _checked(path)
    if not files:
        raise click.UsageError(_("There is no rulebook, a file *.toml, in {path}.").format(path=path))
    for wrong in wrongs:
        click.echo(wrong_line(wrong))
    if not wrongs:
        click.echo(_("{count} of {count} files hold.").format(count=len(files)))
    return 1 if wrongs else 0


def _checked(path: Path | None) -> tuple[Sequence[Path], Sequence[Wrong]]:
    """The files that are asked for, and what is wrong in them; without a path those shipped, and then those of the
    operator's own folder, which may extend them."""
    if path is not None:
        files = files_of(path) if path.is_dir() else [path]
        return files, looked_at(files, beside=_shelf()).wrongs
    files, folder = files_of(_shipped()), read_settings(os.environ).rulebooks
    shelf = looked_at(files)
    own = files_of(folder) if folder else []
    return [*files, *own], [*shelf.wrongs, *looked_at(own, beside=shelf).wrongs]


@command.command("list", help=_("List the rulebooks that come with this release, and those of your own folder."))
def list_them() -> None:
    for id, shelved in sorted(_shelf().by_id.items()):
        rulebook = shelved.rulebook
        told = _("{id}: {title} ({status}). {count} rules, {open} of them to be confirmed.")
        counts = {"count": sum(1 for _each in rules(rulebook)), "open": len(to_be_confirmed(rulebook))}
        click.echo(told.format(id=id, title=rulebook.title, status=status_word(rulebook.status), **counts))


@command.command("show", help=_("Print a rulebook: by its id, or a file of your own, as in force on a day."))
@click.argument("rulebook", metavar="ID|FILE")
@click.option("--on", "on", type=click.DateTime(["%Y-%m-%d"]), help=_("Only what is in force on that day."))
def show(*, rulebook: str, on: datetime | None) -> None:
    found = _found(rulebook)
    click.echo(_printed(found if on is None else in_force(found, on=on.date()), on=on.date() if on else None))


def _shipped() -> Path:
    return shipped.config() / "rulebooks"


def _shelf() -> Shelf:
    """Those that are shipped and those of the operator's own folder."""
    return shelf_with(read_settings(os.environ).rulebooks)


def _found(name: str) -> Rulebook:
    """The shipped one of that id, or the one in that file. Raises UsageError."""
    shelf = _shelf()
    if name in shelf.by_id:
        return shelf.by_id[name].rulebook
    file = Path(name)
    if file.suffix != ".toml" or not file.is_file():
        near = get_close_matches(name, list(shelf.by_id), n=1)
        perhaps = " " + _("Perhaps “{near}” is meant.").format(near=near[0]) if near else ""
        known = ", ".join(sorted(shelf.by_id))
        told = _("There is no rulebook “{name}”, nor such a file; there are: {known}.").format(name=name, known=known)
        raise click.UsageError(told + perhaps)
    beside = looked_at([each for each in files_of(file.parent) if each != file], beside=shelf)
    own = looked_at([file], beside=beside)
    if own.wrongs:
        raise click.UsageError("\n".join(map(wrong_line, own.wrongs)))
    return next(shelved.rulebook for id, shelved in own.by_id.items() if beside.by_id.get(id) is not shelved)


def _printed(rulebook: Rulebook, *, on: date | None) -> str:
    lines = [rulebook.title, f"{rulebook.authority}; {status_word(rulebook.status)}"]
    lines += [rulebook.says] if rulebook.says else []
    lines.append(_("Digest {digest}").format(digest=rulebook.digest))
    if on:
        lines.append(_("As in force on {day}; a rule whose first day is not known is shown.").format(day=on))
    for part in printed(rulebook):
        lines += ["", part.heading, "-" * len(part.heading)]
        for rule in part.rules:
            proposed = " " + _("[to be confirmed]") if rule.asks_confirmation else ""
            lines += [f"{rule.id}{proposed}", f"  {rule.says}", f"  {rule.cited}"]
    if rulebook.dropped:
        lines += ["", _("Not taken over"), *map(dropped_line, rulebook.dropped)]
    return "\n".join(lines)
