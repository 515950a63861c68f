"""What a figure says where it cannot be worked out from what was typed: a sentence, a hint, and 2."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager

import click

from repairlog.figures.told import caution

CAUTION = caution()


class FigureUnclear(Exception):
    """What was typed does not say what is to be worked out. `code`: stable; `message`, `hint`: for a person."""

    def __init__(self, code: str, said: tuple[str, str]) -> None:
        super().__init__(code, said)
        self.code = code
        self.message, self.hint = said


@contextmanager
def told(context: click.Context, *, as_json: bool) -> Iterator[None]:
    """Tell what is unclear within the block, as JSON where that was asked for, and end the command with 2."""
    try:
        yield
    except FigureUnclear as unclear:
        error = {"code": unclear.code, "message": unclear.message, "hint": unclear.hint}
        if as_json:
            click.echo(json.dumps({"error": error}, ensure_ascii=False))
        click.echo(f"{unclear.message}\n{unclear.hint}", err=True)
        context.exit(2)
