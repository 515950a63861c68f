"""A part of the page Today that is a heading, lines that each lead somewhere, and ways to go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """`lead`: a day or a number, before it. `beside`: what is said below it. `wants`: it wants somebody's action."""

    title: str
    address: str
    lead: str = ""
    beside: str = ""
    wants: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Where to go on from a part. `first`: what people come for, drawn as a button."""

    name: str
    address: str
    first: bool = False


def lines_of(heading: str, lines: Sequence[Line], *, none: str, ways: Sequence[Way]) -> dict[str, Any]:
    """That part. `none`: what is said where there is no line."""
    return {"template": "frame/lines.html", "heading": heading, "lines": lines, "none": none, "ways": ways}
