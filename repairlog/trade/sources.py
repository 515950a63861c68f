"""A source as it is known: as it was first told, with what it turned out to be since."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS

FACTS = tuple(
    field.name
    for field in KINDS["source_added"].fields
    if field in KINDS["source_changed"].fields
    and field.name not in ("leak", "happened", "happened_known", "typed_from")
)
"""What is told of a source, and may turn out to be otherwise."""

_ONE_NOTION = {"installed_year": "installed_decade", "installed_decade": "installed_year"}
"""Two ways to say one thing: whichever is told later takes the other's place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A source as it is known. `added`: the entry that tells of it first; `changes`: those that say what it turned out
    to be, in the order in which they happened; `told_by`: by fact, the entry whose word stands."""

    added: Standing
    changes: tuple[Standing, ...]
    told_by: Mapping[str, Standing]

    @property
    def id(self) -> UUID:
        return self.added.id

    def text(self, name: str) -> str:
        """A fact as it was said; empty where nobody did."""
        return self.told_by[name].text(name) if name in self.told_by else ""

    @property
    def otherwise(self) -> tuple[str, ...]:
        """The facts that are otherwise than they were first told."""
        return tuple(name for name in FACTS if self.text(name) != self.added.text(name))


def sources(live: Sequence[Standing]) -> list[Known]:
    """The sources of a leak as they are known now. `live`: its entries that stand, in the order they happened.

    What a source turned out to be counts in whatever order it was dated: it speaks about what had been told.
    """
    changed = [entry for entry in live if entry.kind == "source_changed"]
    return [
        _known(entry, [each for each in changed if _of(each) == entry.id])
        for entry in live
        if entry.kind == "source_added"
    ]


def known_by(source: Known, work: Standing) -> Known:
    """The source as it was known when that entry happened: what turned out only later is left out. What is of the same
    moment was known, whichever came in first."""
    until = order_of_happening(work)[:3]
    return _known(source.added, [each for each in source.changes if order_of_happening(each)[:3] <= until])


def before(source: Known, change: Standing) -> Known:
    """The source as it was known before that change of it."""
    return _known(source.added, source.changes[: source.changes.index(change)])


def _of(change: Standing) -> UUID | None:
    return read_id(change.text("source")) if change.text("source") else None


def _known(added: Standing, changes: Sequence[Standing]) -> Known:
    told_by: dict[str, Standing] = {}
    for entry in (added, *changes):
        told = dict(_told(entry))
        for name in told:
            if _ONE_NOTION.get(name) not in told:
                told_by.pop(_ONE_NOTION.get(name, ""), None)
        told_by |= told
    return Known(added=added, changes=tuple(changes), told_by=told_by)


def _told(entry: Standing) -> Iterator[tuple[str, Standing]]:
    yield from ((name, entry) for name in FACTS if entry.text(name))


_BARE = ("bare", "none", "uncoated", "no coating")


def seen_otherwise(source: Known, exposed: Standing) -> tuple[str, ...] | None:
    """What an exposed pipe's entry says that the source, as it is known, is not told to be: `outside`, `coating`; None
    where it says nothing of the kind. Where nobody told how it is coated, nothing is otherwise."""
    told, outside, seen = _folded(source.text("coating")), exposed.text("outside"), _folded(exposed.text("coating"))
    if not told:
        return None
    if outside == "bare":
        return None if told in _BARE else ("outside",)
    if told in _BARE:
        return ("outside", "coating")[: 1 + bool(seen)] if outside == "coated" else None
    return ("coating",) if seen and seen != told else None


def _folded(words: str) -> str:
    return " ".join(words.casefold().split())
