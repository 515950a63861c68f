"""A command for a declared figure: an option an input, an answer in lines or as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from repairlog.figures import told
from repairlog.figures.answered import answered
from repairlog.figures.declared import Figure, Input
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _


def command_of(figure: Figure) -> click.Command:
    """The command: it ends 0 with an answer, 1 with one that calls for somebody, 2 where it can give none."""

    def call(*, as_json: bool, **typed: str | bool | Sequence[str] | None) -> None:
        answer, complaints = answered(figure, {**typed, **_files(figure, typed)})
        if answer is None:
            refuse(complaints, as_json=as_json)
        elif as_json:
            click.echo(json.dumps(told.as_plain(figure, answer), ensure_ascii=False, allow_nan=False))
        else:
            click.echo("\n".join(told.as_lines(figure, answer)))
        click.get_current_context().exit(2 if answer is None else 1 if answer.wrong else 0)

    return click.Command(
        figure.name,
        callback=call,
        params=[*map(_option, figure.inputs), as_json_option()],
        help=figure.help,
        epilog=told.caution(),
    )


def as_json_option() -> click.Option:
    """The option by which a figure prints JSON."""
    return click.Option(["--json", "as_json"], is_flag=True, help=_("Print one JSON object, with every digit."))


def _files(figure: Figure, typed: Mapping[str, object]) -> dict[str, str]:
    """The text of each file that was named; OSError where it cannot be read."""
    named = {it.name: typed.get(it.name) for it in figure.inputs if it.kind == "file"}
    return {
        name: Path(str(path)).read_text(encoding="utf-8-sig", errors="replace") for name, path in named.items() if path
    }


def _option(it: Input) -> click.Option:
    said = f"{it.help} [{it.default}]" if it.default else it.help
    if it.kind == "yes":
        return click.Option([f"--{it.name.replace('_', '-')}", it.name], is_flag=True, help=said)
    return click.Option(
        [f"--{it.name.replace('_', '-')}", it.name],
        multiple=it.many,
        metavar=it.metavar or "|".join(it.choices) or it.kind.replace(" ", "-").upper(),
        help=said,
    )


def refuse(complaints: Sequence[Unworkable], *, as_json: bool) -> None:
    """Tell each complaint with its option, and as JSON where that was asked for."""
    refused = told.refusals(complaints)
    if as_json:
        click.echo(json.dumps({"error": refused[0], "errors": refused}, ensure_ascii=False))
    for it in refused:
        option = f"--{it['field'].replace('_', '-')}: " if it["field"] else ""
        click.echo(f"{option}{it['message']}\n{it['hint']}", err=True)
