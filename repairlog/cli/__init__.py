"""The command `repairlog`: a table of subcommands, each imported only when it is called."""

import os
import sys
from collections.abc import Sequence

import click

from repairlog import __version__
from repairlog.cli import lazily
from repairlog.cli.lazily import Subcommand
from repairlog.words import _, troubles

SUBCOMMANDS = {
    "init": Subcommand("repairlog.cli.init:init", _("Make a new book: its database, operator, first area and person.")),
    "demo": Subcommand(
        "repairlog.cli.demo.command:demo", _("Fill and serve the book of an operator that does not exist.")
    ),
    "serve": Subcommand("repairlog.cli.serve:command", _("Serve the pages to this machine, until it is told to stop.")),
    "sign-in": Subcommand(
        "repairlog.cli.sign_in:sign_in", _("Let a person sign in, change a password, or close a sign-in.")
    ),
    "token": Subcommand(
        "repairlog.cli.token:token", _("Make, list or close what programs show when they send entries.")
    ),
    "journal": Subcommand("repairlog.cli.journal:journal", _("Print the journal's head, or verify every sealed line.")),
    "rebuild": Subcommand(
        "repairlog.cli.rebuild:rebuild", _("Compare all tables with the journal, or write them anew.")
    ),
    "upgrade": Subcommand("repairlog.cli.upgrade:upgrade", _("Bring a book of an older release to this one.")),
    "files": Subcommand("repairlog.cli.files:files", _("Say which files no entry names, and delete them.")),
    "import": Subcommand("repairlog.cli.import_list:import_list", _("Take an old list of leaks or repairs in.")),
    "privacy": Subcommand("repairlog.cli.privacy:privacy", _("Say which personal data is due to go, and remove it.")),
    "rules": Subcommand("repairlog.cli.rules:command", _("Check, list and print rulebooks.")),
    "figure": Subcommand("repairlog.cli.figure:figure", _("Work out one figure, such as a converted pressure.")),
}


def main(args: Sequence[str] | None = None) -> None:
    """Run one command and end the process: 0 done, 1 found something wrong, 2 asked wrongly."""
    sys.exit(run(args))


def run(args: Sequence[str] | None = None) -> int:
    """Run one command, the words after `repairlog` (those of the process if None), and give its exit code."""
    try:
        answer = overview().main(args, prog_name="repairlog", standalone_mode=False)
    except click.Abort:
        return _told(_("Stopped; nothing more was done."))
    except click.exceptions.NoArgsIsHelpError as error:
        return _told(error.format_message())
    except click.UsageError as error:
        return _told(error.format_message(), before=error.ctx.get_usage() if error.ctx else "")
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # whoever read us has read enough
        return 0
    except Exception as error:
        if (sentence := sentence_of(error)) is None:
            raise
        return _told(sentence)
    return answer if isinstance(answer, int) else 0


def overview() -> click.Group:
    """The command itself, its subcommands standing in for themselves until one is called."""
    group = click.Group(
        "repairlog",
        commands=lazily.stand_ins(SUBCOMMANDS),
        help=_("The book of record of a gas distribution operator: leaks, repairs, and what is owed after them."),
        epilog=_("It keeps records and works out figures; it does not make a place safe."),
    )
    return click.version_option(__version__, message="%(prog)s %(version)s")(group)


def load(name: str) -> click.Command:
    """The subcommand itself, imported now; KeyError where the table has no such name."""
    return lazily.loaded(SUBCOMMANDS[name])


def sentence_of(error: Exception) -> str | None:
    """What a person is told of a mistake or a lack on this machine; None for a fault of our own."""
    if isinstance(error, click.ClickException):
        return error.format_message()
    if isinstance(error, OSError) and error.filename is not None:
        return f"{error.filename}: {error.strerror}"
    code = getattr(error, "code", None)
    if not isinstance(code, str) or not type(error).__module__.startswith("repairlog."):
        return None
    return " ".join(troubles.sentence(code, getattr(error, "facts", None)))


def _told(sentence: str, *, before: str = "") -> int:
    for line in filter(None, (before, sentence)):
        click.echo(line, err=True)
    return 2
