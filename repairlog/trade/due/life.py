"""What in a leak's life starts a clock or stops one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, tzinfo
from uuid import UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class When:
    """`on`: the legal day. `at`: the moment (UTC), None where only the day is known. `entry`: the entry that says so,
    None where none does. `known`: whether it is the day itself; one that is only the latest it can have been starts no
    clock."""

    on: date
    at: datetime | None = None
    entry: UUID | None = None
    known: bool = True

    @property
    def order(self) -> tuple[date, datetime]:
        """Sorts as things happened; a day without an hour after the moments of that day."""
        return self.on, self.at or datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """A grade as it stood from one setting to the next other one. `criterion`: as the person cited it. `rank`: 1 is the
    most hazardous, None where no rank is known."""

    code: str
    since: When
    criterion: str = ""
    rank: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A visit at which somebody looked. `gas`: whether any reading was above zero, None where nothing was read.
    `follows`: whether it was a follow-up inspection."""

    when: When
    gas: bool | None = None
    follows: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Life:
    """`reported`, `found`: the day of the report, and that on which it was detected or first located. `grades`: as they
    followed each other. `looks`: in their order. `repaired`: when the last source was tight for good, None while one is
    not. `temporary`: temporary repairs. `made_safe`: each time that the hazard was gone. `ended`, `joined`: as the leak
    is ended now. `done`: by task, when something was done that is done by saying so. `holds`: codes of `DUE_WHEN`.
    `zone`: whose days count."""

    zone: tzinfo
    reported: When | None = None
    found: When | None = None
    grades: tuple[Graded, ...] = ()
    looks: tuple[Look, ...] = ()
    repaired: When | None = None
    temporary: tuple[When, ...] = ()
    made_safe: tuple[When, ...] = ()
    ended: When | None = None
    joined: bool = False
    done: Mapping[str, When] = field(default_factory=dict)
    holds: frozenset[str] = frozenset()
