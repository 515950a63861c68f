"""Commands that are imported only when they are called."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module

import click


@dataclass(frozen=True, slots=True)
class Subcommand:
    """Where a subcommand lives, as `module:object`, and its line in the overview."""

    place: str
    help: str


class StandIn(click.Command):
    """What stands in a group for a subcommand until it is called; `meant` says where the subcommand is."""

    def __init__(self, name: str, *, meant: Subcommand) -> None:
        super().__init__(
            name,
            callback=self.called,
            params=[click.Argument(["rest"], nargs=-1, type=click.UNPROCESSED)],
            short_help=meant.help,
            add_help_option=False,
            context_settings={"ignore_unknown_options": True, "allow_interspersed_args": False},
        )
        self.meant = meant

    def called(self, rest: tuple[str, ...]) -> object:
        """Run the subcommand itself over the words after its name."""
        command = loaded(self.meant)
        with command.make_context(self.name, list(rest), parent=click.get_current_context().parent) as context:
            return command.invoke(context)


def stand_ins(table: Mapping[str, Subcommand]) -> dict[str, click.Command]:
    """A stand-in for each subcommand of the table, by its name."""
    return {name: StandIn(name, meant=it) for name, it in table.items()}


def loaded(subcommand: Subcommand) -> click.Command:
    """The subcommand itself, imported now."""
    module, _colon, attribute = subcommand.place.partition(":")
    command = getattr(import_module(module), attribute)
    if not isinstance(command, click.Command):
        raise TypeError(f"{subcommand.place} is no Click command")
    return command
