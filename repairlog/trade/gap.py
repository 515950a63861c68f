"""A gap: something in the record that does not hold up, with the facts it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from uuid import UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """`code`: what does not hold up. `entry`: the entry it is about. `row`: `list.key` or a field's path, empty for
    the entry as a whole. `facts`: text by name, for the sentence that a person reads. `set_aside`: the entry by which
    somebody set it aside, if any."""

    code: str
    entry: UUID
    row: str = ""
    facts: Mapping[str, str] = field(default_factory=dict)
    set_aside: UUID | None = None
