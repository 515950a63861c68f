"""When a leak counts as ended: only an ending ends it, and only while what the ending names holds."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Protocol
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.trade.attempts import Attempt


class Tried(Protocol):
    """Of an attempt, what its leak's ending rests on."""

    @property
    def source(self) -> UUID | None: ...
    @property
    def lasting(self) -> str: ...
    @property
    def outcome(self) -> str: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """`on`: day of the latest tight attempt that it names, or the ending's own day. `why_not`: what it lacks, in
    codes. `reopened`: how often the leak was opened again after it; what ends a leak is the first ending that lacks
    nothing and after which it was not opened again."""

    entry: Standing
    on: str
    attempts: tuple[Attempt, ...]
    why_not: tuple[str, ...]
    reopened: int = 0

    @property
    def holds(self) -> bool:
        """Whether it lacks nothing: then the leak was ended by it at least until it was opened again."""
        return not self.why_not


def endings(story: Sequence[Standing], *, done: Mapping[UUID, Attempt], sources: Sequence[UUID]) -> list[Ending]:
    """Every live ending of a leak, as the days of their endings run; those of one day as the story has them.

    `story`: the live entries in the order they happened; `done`: the attempts by id; `sources`: the live sources.
    """
    found = []
    for place, entry in enumerate(story):
        if entry.kind == "leak_ended":
            again = sum(after.kind == "leak_reopened" for after in story[place + 1 :])
            found.append(replace(_ending(entry, done=done, sources=sources), reopened=again))
    return sorted(found, key=lambda ending: ending.on)


def ending_that_counts(ends: Sequence[Ending]) -> Ending | None:
    """The ending by which the leak is ended now, of all its endings as `endings` gives them; None while it is open."""
    return next((each for each in ends if each.holds and not each.reopened), None)


def _ending(entry: Standing, *, done: Mapping[UUID, Attempt], sources: Sequence[UUID]) -> Ending:
    named = [read_id(row["attempt"]) for row in entry.rows("attempts")]
    listed = not named and entry.by["sure"] == "import"  # an old list tells the day of a repair, and of none the test
    if entry.text("how") != "repaired" or listed:
        return Ending(entry=entry, on=entry.on, attempts=(), why_not=_joined_nowhere(entry))
    there = tuple(done[each] for each in named if each in done)
    return Ending(
        entry=entry,
        on=max((each.on for each in there), default=entry.on),
        attempts=there,
        why_not=lacks(named, done=done, sources=sources),
    )


def _joined_nowhere(entry: Standing) -> tuple[str, ...]:
    """What an ending lacks that joins its leak to no other: the hazard would be open under no number. What an old list
    tells holds as listed."""
    to = entry.text("joined_to")
    if entry.text("how") != "joined" or (not to and entry.by["sure"] == "import"):
        return ()
    return () if to and to != entry.text("leak") else ("joined_to_itself" if to else "joined_without_number",)


def lacks(named: Sequence[UUID], *, done: Mapping[UUID, Tried], sources: Collection[UUID]) -> tuple[str, ...]:
    """What an ending by repair lacks that names these attempts, in codes, each once; nothing where it ends the leak."""
    there = [done[each] for each in named if each in done]
    why_not = [] if named else ["no_attempt_named"]
    why_not += ["attempt_not_there" for each in named if each not in done]
    why_not += ["attempt_not_tight" for each in there if each.outcome != "tight"]
    why_not += ["attempt_temporary" for each in there if each.lasting == "temporary"]
    if set(sources) - {each.source for each in there}:
        why_not.append("source_without_attempt")
    return tuple(dict.fromkeys(why_not))
