"""`repairlog journal`: the head of the journal, and the proof that its lines are what they were."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

import click

from repairlog.cli import options
from repairlog.records.beside.blobs import named_files
from repairlog.records.blobs import state_of
from repairlog.records.verify import Noted, head, verify
from repairlog.words import _
from repairlog.words.journal import problem_sentence


@click.group(help=_("Print the journal's head, or verify every sealed line."))
def journal() -> None:
    """The group that both stand in."""


@journal.command("head", help=_("Print how many lines the journal has and the root of their tree. Note it elsewhere."))
@options.database
@options.as_json
def print_head(*, database_url: str | None, as_json: bool) -> None:
    with options.opened(database_url) as store:
        now = head(store)
    if as_json:
        click.echo(json.dumps({"size": now.size, "root": now.root.hex()}))
    else:
        click.echo(f"{now.size}:{now.root.hex()}")


@journal.command("verify", help=_("Check every line, leaf and the tree, and a head noted before."))
@click.option("--against", metavar="SIZE:ROOT", help=_("A head noted before, as `journal head` prints it."))
@click.option("--blobs", "with_files", is_flag=True, help=_("Check every file that an entry names, too."))
@options.database
@options.as_json
def verify_journal(*, against: str | None, with_files: bool, database_url: str | None, as_json: bool) -> int:
    noted = _noted(against) if against else None
    with options.opened(database_url) as store:
        found = verify(store, against=noted)
        files = _files_apart(named_files(store), options.files_of(database_url)) if with_files else {}
    sentences = [problem_sentence(p.code, index=p.index, stands=p.stands, should=p.should) for p in found.problems]
    told = [_of_file(digest, state) for digest, state in files.items()]
    if as_json:
        problems: list[dict[str, object]] = [
            {"code": p.code, "index": p.index, "message": sentence}
            for p, sentence in zip(found.problems, sentences, strict=True)
        ]
        problems += [
            {"code": f"file_{state}", "digest": digest, "message": sentence}
            for (digest, state), sentence in zip(files.items(), told, strict=True)
        ]
        click.echo(json.dumps({"size": found.size, "root": found.root.hex(), "problems": problems}))
    elif sentences or told:
        click.echo("\n".join([*sentences, *told]))
    else:
        click.echo(_("{size} lines hold; root {root}").format(size=found.size, root=found.root.hex()))
    return 1 if found.problems or files else 0


def _files_apart(digests: Sequence[str], folder: Path) -> dict[str, str]:
    """Of these files, those that are missing or altered."""
    states = {digest: state_of(folder, digest) for digest in digests}
    return {digest: state for digest, state in states.items() if state != "here"}


def _of_file(digest: str, state: str) -> str:
    if state == "missing":
        return _("file {digest} is missing: it has not come yet, or was taken away").format(digest=digest)
    return _("file {digest} was altered: it is not what its entry names; bring it back from a backup").format(
        digest=digest
    )


def _noted(text: str) -> Noted:
    size, _colon, root = text.strip().partition(":")
    try:
        noted = Noted(int(size), bytes.fromhex(root))
    except ValueError:
        noted = Noted(-1, b"")
    if noted.size < 0 or len(noted.root) != 32:
        expected = _("expected SIZE:ROOT, such as 417:1f9e…, a number and 64 hex digits, as `journal head` prints it")
        raise click.BadParameter(expected, param_hint="--against")
    return noted
