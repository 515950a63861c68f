"""The shipped rulebooks, for figures that are worked out by one."""

from __future__ import annotations

import re
from datetime import date
from functools import cache

from repairlog import shipped
from repairlog.figures.declared import Asked, Input
from repairlog.rulebooks import Shelf, shipped_shelf
from repairlog.rulebooks.shelf import files_of
from repairlog.trade.rulebook import Rulebook, in_force
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _

_TITLE = re.compile(r'^title *= *"([^"]+)"', re.MULTILINE)


def _titles() -> dict[str, str]:
    """What each shipped rulebook is called, by its id; looked up in its text, for reading them all takes its time."""
    files = files_of(shipped.config() / "rulebooks")
    found = {file.stem: _TITLE.search(file.read_text(encoding="utf-8")) for file in files}
    return {id: title[1] if title else id for id, title in found.items()}


_SHIPPED = _titles()

RULEBOOK = Input(
    name="rulebook",
    kind="choice",
    choices=tuple(_SHIPPED),
    words=_SHIPPED,
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
