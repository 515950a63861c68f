"""The shipped rulebooks, for figures that are worked out by one."""

from __future__ import annotations

from datetime import date
from functools import cache

from repairlog import shipped
from repairlog.figures.declared import Asked, Input
from repairlog.rulebooks import Shelf, shipped_shelf
from repairlog.rulebooks.shelf import files_of
from repairlog.trade.rulebook import Rulebook, in_force
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _

RULEBOOK = Input(
    name="rulebook",
    kind="choice",
    choices=tuple(file.stem for file in files_of(shipped.config() / "rulebooks")),
    label=_("Rulebook"),
    help=_("By whose rules."),
    default="us-guide",
)


def rulebook(asked: Asked, *, on: date | None) -> Rulebook:
    """The rulebook that was named with the rules in force on that day; all its rules where none is given. Raises
    RulebookWrong."""
    found = _shelf().by_id[str(asked.values["rulebook"])].rulebook
    return found if on is None else in_force(found, on=on)


def grade_of(asked: Asked, by: Rulebook, *, name: str) -> str:
    """The grade that was named; raises `not_a_choice` where the rulebook has none of that code."""
    code, known = str(asked.values.get(name, "")), [each.code for each in by.grades]
    if code and code not in known:
        raise Unworkable("not_a_choice", field=name, got=code[:80], would_have=", ".join(known) or _("none"))
    return code


@cache
def _shelf() -> Shelf:
    return shipped_shelf()
