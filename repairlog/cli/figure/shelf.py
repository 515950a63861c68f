"""The rulebook that a figure is worked out by, as it is in force on a day."""

from __future__ import annotations

import difflib
from datetime import date

from repairlog.cli.figure.unclear import FigureUnclear
from repairlog.rulebooks import shipped_shelf
from repairlog.trade.rulebook import Rulebook, in_force
from repairlog.words import _


def rulebook_of(id: str, *, on: date | None) -> Rulebook:
    """The shipped rulebook of that id with the rules in force on that day; all its rules where none is given. Raises
    FigureUnclear."""
    shelf = shipped_shelf().by_id
    if id not in shelf:
        raise unknown("rulebook_unknown", _("No rulebook “{got}” is known.").format(got=id), got=id, known=list(shelf))
    rulebook = shelf[id].rulebook
    return rulebook if on is None else in_force(rulebook, on=on)


def unknown(code: str, message: str, *, got: str, known: list[str]) -> FigureUnclear:
    """What is said of a name that is not among those known: the nearest, and all of them."""
    near = difflib.get_close_matches(got, known, n=1)
    all_of_them = _("Known: {names}.").format(names=", ".join(sorted(known)))
    hint = _("Did you mean {name}? {known}").format(name=near[0], known=all_of_them) if near else all_of_them
    return FigureUnclear(code, (message, hint))
