"""`repairlog figure`: figures worked out from what is typed, a file a figure, each imported when it is called."""

from __future__ import annotations

import click

from repairlog.cli import lazily
from repairlog.cli.lazily import Subcommand
from repairlog.words import _

SUBCOMMANDS = {
    "convert": Subcommand(
        "repairlog.cli.figure.convert:convert_reading", _("Give a reading in another unit, and how it was understood.")
    ),
    "grade": Subcommand(
        "repairlog.cli.figure.grade:grade", _("Say the least grade that readings call for, and by which criterion.")
    ),
    "due": Subcommand("repairlog.cli.figure.due:due", _("Say what is owed of a leak by when, and by which clause.")),
    "interval": Subcommand(
        "repairlog.cli.figure.interval:interval", _("Count an interval, as a code writes it, from a day or a moment.")
    ),
    "cure": Subcommand(
        "repairlog.cli.figure.cure:command", _("Say how long a material cures, by its table or by its temperatures.")
    ),
    "emissions": Subcommand(
        "repairlog.cli.figure.emissions:command", _("Sum a year's methane by dated factors, and by measured flow.")
    ),
    "flow": Subcommand(
        "repairlog.cli.figure.flow:command", _("Say how much gas escapes through a hole, or out of a cut line.")
    ),
    "hold": Subcommand(
        "repairlog.cli.figure.hold:command", _("Work out a pressure test, and whether it can show a leak at all.")
    ),
    "linepack": Subcommand(
        "repairlog.cli.figure.linepack:command", _("Say how much gas a pipe holds, and how much is let out of it.")
    ),
    "pipe": Subcommand(
        "repairlog.cli.figure.pipe:command", _("Give a pipe's size, stress, design pressure and least test pressure.")
    ),
    "loss": Subcommand("repairlog.cli.figure.loss:command", _("Sum what a leak lost over its life.")),
    "wrap": Subcommand(
        "repairlog.cli.figure.wrap:command", _("Say how much tape or sheet goes around a pipe, in how many layers.")
    ),
}

figure = click.Group(
    "figure",
    commands=lazily.stand_ins(SUBCOMMANDS),
    help=_("Work out a figure, and show how what was typed was understood."),
)
