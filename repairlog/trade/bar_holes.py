"""The bar holes of a leak, each under the number that it keeps."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class BarHole:
    """A bar hole under the number it keeps; `entry` and `key`: the visit and place that first named it."""

    entry: UUID
    key: str
    number: int
    label: str


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


def holes_by_name(live: Iterable[Standing]) -> dict[str, int]:
    """The number of each bar hole by every name that it bears. `live`: in the order of happening. The numbers are
    those of `bar_holes`, which gives each hole once."""
    numbers: dict[str, int] = {}
    for entry in (each for each in live if each.kind == "visit"):
        for place in (row for row in entry.rows("places") if row.get("kind") == "bar_hole"):
            names = [f"{entry.id}/{place['key']}", *([place["same_as"]] if "same_as" in place else [])]
            known = next((numbers[name] for name in names if name in numbers), None)
            number = known if known is not None else max(numbers.values(), default=0) + 1
            numbers |= dict.fromkeys(names, number)
    return numbers
