"""A row of a list that was not taken in, with the cell that speaks against it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """`line`: of the file, from 1, where the row begins. `column`, `cell`: by the list's own words; empty where the row
    as a whole is meant. `code`, `facts`: for the sentence in `words`."""

    line: int
    code: str
    column: str = ""
    cell: str = ""
    facts: Mapping[str, str | list[str]] = field(default_factory=dict)


class Refused(Exception):
    """Raised where a row is read, and collected where rows are. `refusals`: at least one."""

    def __init__(self, refusals: list[Refusal]) -> None:
        super().__init__(refusals)
        self.refusals = refusals
