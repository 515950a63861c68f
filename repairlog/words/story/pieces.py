"""The pieces that a story is told in: plain values, for a page to draw."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """`text`: what is said, empty where it was taken away. `also`: the same in another unit, and what else is said of
    it in passing. `was`: what stood there before, oldest first. `leak`: whose sheet it leads to, if any."""

    text: str
    also: str = ""
    was: tuple[str, ...] = ()
    leak: UUID | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A label with what is said under it, in one piece or in several."""

    label: str
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """A note beside an entry. `wants`: somebody has to do something about it. `righting`: the correction or void that
    it tells of, if any. `gap`, `row`: of a gap that it tells of, its code and row."""

    head: str
    text: str
    wants: bool = False
    righting: UUID | None = None
    gap: str = ""
    row: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """One entry, told. `at`: when it happened, for machines: a moment as it is sealed, else a day; `day`, `hour`: the
    same in the area's zone, for people, `hour` empty where only the day is known. `by`: who did it. `verdict`: a word
    on how it came out, `good` or not. `prose`: texts; `items`: short ones. `kept`: by whom and how it came into the
    book. `void`: why it does not count, None where it does."""

    id: UUID
    kind: str
    at: str
    day: str
    hour: str
    title: str
    by: str
    verdict: str
    good: bool
    prose: tuple[Item, ...]
    items: tuple[Item, ...]
    margin: tuple[Margin, ...]
    kept: str
    void: Margin | None
