"""A leak as it stands: always a fold over all its entries in the order they happened, never an increment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.attempts import Attempt, attempts
from repairlog.trade.ending import Ending, endings
from repairlog.trade.gap import Gap
from repairlog.trade.leak_gaps import gaps
from repairlog.trade.rests import Rests


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A grade code with its rank (1 is the most hazardous); None where no rank is known."""

    code: str
    rank: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """`number`: its place among the leak's sources, from 1. `tight_on`: day of the last permanent attempt on it, where
    that is tight; empty otherwise."""

    id: UUID
    number: int
    tight_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BarHole:
    """A bar hole under the number it keeps; `entry` and `key`: the visit and place that first named it."""

    entry: UUID
    key: str
    number: int
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak:
    """`opened`: the entry that opened it. `status`: open, ended, opened_in_error. `ending`: the one that counts."""

    opened: Standing
    status: str
    grade_found: Grade | None
    grade_now: Grade | None
    ending: Ending | None
    sources: tuple[Source, ...]
    attempts: tuple[Attempt, ...]
    bar_holes: tuple[BarHole, ...]
    gaps: tuple[Gap, ...]


def leak(entries: Sequence[Standing], *, rests: Rests) -> Leak | None:
    """The leak that these entries tell of; None if none of them opens it.

    `entries`: all that belong to it as they stand, void ones too, in any order. `rests`: what it
    rests on beside them.
    """
    opened = next((entry for entry in entries if entry.kind == "leak_opened"), None)
    if opened is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    done = attempts(live)
    found = [entry.id for entry in live if entry.kind == "source_added"]
    ends = endings(live, done={each.id: each for each in done}, sources=found)
    ending = next((each for each in ends if not each.why_not), None) if opened.void is None else None
    grades = [Grade(code=e.text("grade"), rank=e.understood.get("rank")) for e in live if e.kind == "grade_set"]
    return Leak(
        opened=opened,
        status=_status(opened, ending),
        grade_found=grades[0] if grades else None,
        grade_now=grades[-1] if grades else None,
        ending=ending,
        sources=tuple(_source(id, done, number=number) for number, id in enumerate(found, start=1)),
        attempts=tuple(done),
        bar_holes=tuple(bar_holes(live)),
        gaps=tuple(gaps(opened, live, done=done, ends=ends, rests=rests)),
    )


def _status(opened: Standing, ending: Ending | None) -> str:
    if opened.void is not None:
        return "opened_in_error"
    return "ended" if ending else "open"


def _source(id: UUID, done: Sequence[Attempt], *, number: int) -> Source:
    permanent = [each for each in done if each.source == id and each.lasting == "permanent"]
    tight_on = permanent[-1].on if permanent and permanent[-1].holds else ""
    return Source(id=id, number=number, tight_on=tight_on)


def bar_holes(live: Sequence[Standing]) -> list[BarHole]:
    """The bar holes of a leak's live entries, numbered in the order they were first looked at.

    A place that says it is the same hole as another is no new hole, through whichever visit it names it; the
    person's label is kept beside the number.
    """
    holes: list[BarHole] = []
    seen: set[str] = set()  # every name that a hole bears: `entry id/row key`
    for visit in (entry for entry in live if entry.kind == "visit"):
        for place in (row for row in visit.rows("places") if row.get("kind") == "bar_hole"):
            names = {f"{visit.id}/{place['key']}", place.get("same_as", "")} - {""}
            if not names & seen:
                number = len(holes) + 1
                holes.append(BarHole(entry=visit.id, key=place["key"], number=number, label=place.get("label", "")))
            seen |= names
    return holes
