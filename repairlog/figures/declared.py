"""What a figure asks for and what it answers with: declared once, for its command and its page."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from repairlog.units import Measure

Worth = Measure | Decimal | str | bool | tuple[Any, ...]
"""One thing that was asked, as read: a measure, a bare number, a text, yes, or several of one of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One thing that a figure asks for.

    `name`: in Python's spelling; the option is the same with hyphens. `kind`: a quantity of `repairlog.units`, or
    `number` (a bare number or fraction), `hours` (bare or with a unit), `share` (0 to 1, or per cent), `year`, `yes`,
    `choice`, `text`, `difference` (so many degrees, up or down), `file` (the text of a file: a command reads it, a page
    takes it in a box).
    `default`: as a person would type it; taken and told where nothing is given. `choices`: what `choice` takes, in
    capitals or not; `words`: what a page shows for such a code, where it is no word by itself.
    `many`: whether it may be given again. `group`: the heading on a page under which it stands with its neighbours.
    """

    name: str
    kind: str
    label: str
    help: str
    default: str = ""
    choices: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    many: bool = False
    metavar: str = ""
    group: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was typed, as read by the declared inputs: `values` holds what was given or has a default, by name;
    `typed` what was really given; `shown` how each was understood, in the order of the declaration."""

    values: Mapping[str, Worth]
    typed: frozenset[str]
    shown: Mapping[str, str]
    atmosphere_kpa: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One number or word of an answer. `key`: in JSON, with its unit in it. `label`, `unit`: for people. `digits`: how
    many a person sees; 0 leaves it as it is."""

    key: str
    worth: float | int | str | None
    label: str = ""
    unit: str = ""
    digits: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A figure worked out. `values`: the first is what was asked for. `parts`: further keys of the JSON, by rows.
    `steps`: the working, a line a step. `wrong`: whether it is a finding that calls for somebody (exit code 1)."""

    values: tuple[Value, ...]
    formula: str
    source: str
    bounds: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    understood: Mapping[str, str] = field(default_factory=dict)
    parts: Mapping[str, tuple[Mapping[str, float | int | str], ...]] = field(default_factory=dict)
    wrong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure of the trade: its name as a command, what it asks, and the function that answers.

    `version`: of the formula and the way it is worked; a kept figure names it. `work` may raise `Unworkable`.
    """

    name: str
    version: str
    title: str
    help: str
    inputs: tuple[Input, ...]
    work: Callable[[Asked], Answer]
