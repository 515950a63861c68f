"""The filter of a list: its boxes, declared once, and what an address asks for by them, each box read by itself, so
that a wrong one spoils no other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from uuid import UUID

from flask import request

from repairlog.entries.ids import as_id
from repairlog.trade.area import Area
from repairlog.words import _

MOST_DAYS = 36_500
"""Days ahead that a filter looks at the most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A box of a filter. `name`: as the address names it. `hint`: what stands in it while it is empty; `size`: letters
    that it shows. `choices`: by code what is shown, where one of them is chosen; `any`: what stands for none of them,
    None where one always is. `offered`: texts that are offered beside any other. `reads`: "text", "choice", "day" or
    "days", a whole number of them. `wrong`: what is said of what cannot be read, where that is not said as always."""

    name: str
    label: str
    hint: str = ""
    size: int = 16
    choices: Mapping[str, str] = field(default_factory=dict)
    any: str | None = ""
    offered: Sequence[str] = ()
    reads: str = "text"
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What an address asks for. `typed`: what stands in each box, blanks folded, empty ones left out; `wrong`: by name
    of a box, what is said of what could not be read. `within`: the areas in the asker's scope; None: the list is of no
    area."""

    boxes: Sequence[Box] = ()
    typed: Mapping[str, str] = field(default_factory=dict)
    wrong: Mapping[str, str] = field(default_factory=dict)
    within: Sequence[Area] | None = None

    @property
    def readable(self) -> dict[str, str]:
        """What was typed and asks for something."""
        return {name: text for name, text in self.typed.items() if name not in self.wrong}

    @property
    def area(self) -> UUID | None:
        """The area that was chosen; None: whatever area."""
        code = self.text("area").casefold()
        return next((area.id for area in self.within or () if code and area.code.casefold() == code), None)

    @property
    def areas(self) -> list[Area]:
        """Those that the rows may be of."""
        return [area for area in self.within or () if self.area in (None, area.id)]

    def text(self, name: str) -> str:
        """What stands in that box; empty where nothing does, or nothing that can be read."""
        return self.readable.get(name, "")

    def day(self, name: str) -> date | None:
        """The day in that box; None where there is none."""
        return day_in(self.text(name))

    def id(self, name: str) -> UUID | None:
        """The id that was chosen in that box; None where none was."""
        return as_id(self.text(name))


def chosen(name: str, label: str, *, choices: Mapping[str, str], any: str | None = "", wrong: str = "") -> Box:
    """A box in which one of these is chosen."""
    return Box(name=name, label=label, choices=choices, any=any, reads="choice", wrong=wrong)


def on_day(name: str, label: str, *, wrong: str = "") -> Box:
    """A box for a day."""
    return Box(name=name, label=label, reads="day", wrong=wrong)


def days_between(label: str) -> list[Box]:
    """The boxes for the first and the last day of a period. `label`: of the first."""
    return [on_day("from", label), on_day("until", _("Until"))]


def of_area(within: Sequence[Area], *, always: bool = False) -> list[Box]:
    """The box for an area; none where there is but one, unless the address names one all the same. `always`: there,
    too."""
    if len(within) < 2 and not request.args.get("area") and not always:
        return []
    wrong = _("There is no area “{got}” here; it is left out for now.")
    return [chosen("area", _("Area"), choices={area.code: area.name for area in within}, wrong=wrong)]


def asked(boxes: Iterable[Box], *, within: Sequence[Area] | None) -> Asked:
    """Read the filter in the address of this request."""
    every = tuple(boxes)
    typed = {box.name: text for box in every if (text := " ".join(request.args.get(box.name, "").split()))}
    wrong = {box.name: _wrong(box) for box in every if box.name in typed and not _reads(box, typed[box.name])}
    first, last = (day_in(typed.get(name, "")) for name in ("from", "until"))
    if first and last and last < first:
        wrong["until"] = _("“{got}” comes before the first day; it is left out for now.")
    told = {name: said.format(got=typed[name]) for name, said in wrong.items()}
    return Asked(boxes=every, typed=typed, wrong=told, within=within)


def refused(of: Asked, name: str, *, said: str) -> Asked:
    """The same, but that what stands in that box is left out, as is said beside it."""
    return replace(of, wrong={**of.wrong, name: said})


def day_in(text: str) -> date | None:
    """The day that somebody typed, `YYYY-MM-DD`; None for any other text."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _reads(box: Box, text: str) -> bool:
    if box.reads == "choice":
        either = {code.casefold() for code in box.choices} if box.name == "area" else box.choices
        return (text.casefold() if box.name == "area" else text) in either
    if box.reads == "day":
        return day_in(text) is not None
    if box.reads == "days":
        return text.isascii() and text.isdigit() and len(text) <= len(str(MOST_DAYS)) and int(text) <= MOST_DAYS
    return True


def _wrong(box: Box) -> str:
    return box.wrong or {
        "day": _("“{got}” is no day of the calendar. Write it like 2026-03-05; it is left out for now."),
        "days": _("“{got}” is no whole number of days up to 36500; it is left out for now."),
    }.get(box.reads, _("“{got}” is none of the choices; it is left out for now."))
