"""What is said where a whole call was not recorded: what happened to it, and what to do."""

from __future__ import annotations

from collections.abc import Mapping

from repairlog.entries.kinds import KINDS
from repairlog.words import _, troubles


def sentence(code: str, facts: Mapping[str, str] | None = None) -> tuple[str, str]:
    """Message and hint for what a call was not recorded for, by its code; KeyError for an unknown one.

    `facts`: `kind` of the entry that was refused; `id` of the one that stands with other content; `line` and `column`
    of what is no JSON; `digest` of a rulebook that cannot be opened.
    """
    told = {"id": "", "line": "", "column": "", "digest": "", **(facts or {})}
    told["kind"] = KINDS[told["kind"]].says if told.get("kind") in KINDS else _("this entry")
    ours = _of_the_call()
    if code not in ours:
        return troubles.sentence(code, told)
    message, hint = ours[code]
    return message.format_map(told), hint.format_map(told)


def _of_the_call() -> dict[str, tuple[str, str]]:
    return {
        "not_understood": (
            _("Something in it could not be read."),
            _("What you typed is kept as unfinished; put right what is marked, and save it again."),
        ),
        "json_unreadable": (
            _("It is no JSON from line {line}, column {column} on, or it is nested deeper than an entry ever is."),
            _("Nothing was recorded of it; put that right, and send it again."),
        ),
        "refused": (
            _("Your roles do not let you enter this here: {kind}."),
            _("What you typed is kept as unfinished; a supervisor can see it. Ask for the role, or have it entered."),
        ),
        "waits": (
            _("It names something that is not in the book yet."),
            _("What you typed is kept, and is saved by itself when that comes in."),
        ),
        "not_there": (
            _("It names something that is not in the book."),
            _("Look at what it names, or enter that first."),
        ),
        "conflict": (
            _("An entry of this id stands already and says something else."),
            _("Nothing was changed. Look at both; to change what stands, correct it."),
        ),
        "settings_changed": (
            _("The settings of the area were changed meanwhile."),
            _("Nothing was saved of it; send the same again."),
        ),
    }
