"""What could not be read of a call: collected field by field, told together."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """One field that could not be read. `entry`: its place in the call, from 0. `field`: its name, or `list.key.name`;
    empty for the entry as a whole. `facts`: texts and lists of texts, for the sentence in `words`."""

    entry: int
    field: str
    code: str
    facts: Mapping[str, str | list[str]] = dataclasses.field(default_factory=dict)


class NotUnderstood(Exception):
    """A call that could not be read, with every complaint about it. What was typed is kept as unfinished."""

    code = "not_understood"

    def __init__(self, complaints: Sequence[Complaint]) -> None:
        self.complaints = tuple(complaints)
        super().__init__("; ".join(f"entry {c.entry}, {c.field or 'as a whole'}: {c.code}" for c in complaints))
