"""Where a rule is written, how far its text is known, and on which days it is in force."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

MARKS = ("text_checked", "restated", "memory", "common_practice")
"""How a rule is known: its text was read; a restatement of it was read; from memory; usual, with no text behind it."""

STATUSES = ("in_force", "guidance", "proposed")
"""What a rulebook is: law; guidance, which binds where a law or an operator's manual takes it up; a proposal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cited:
    """`clause`: where it stands, as the authority numbers it. `source`: which copy, restatement or page says so.
    `mark`: one of `MARKS`. `checked`: the day on which source and figure were last compared. `first`, `last`: days in
    force, both counted in; None where not known (`first`) or where it is still in force (`last`). `remark`: what a
    reader should know beside it. `rulebook`: the id of the rulebook whose text says it."""

    clause: str
    source: str
    mark: str
    checked: date
    first: date | None = None
    last: date | None = None
    remark: str = ""
    rulebook: str = ""

    @property
    def firm(self) -> bool:
        """Whether its dates stand without an officer's confirmation; otherwise they are proposed."""
        return self.mark == "text_checked"


def in_force_on(cited: Cited, on: date) -> bool:
    """Whether a rule so cited is in force on that day; a first day that is not known keeps no rule out."""
    return (cited.first is None or cited.first <= on) and (cited.last is None or on <= cited.last)
