"""What any subject's own entries tie to it: numbers that others know it by, and others that are the same as it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.entries.ids import read_id

OF_A_DIG = (("ticket", "one-call ticket"), ("permit", "permit"))
"""Fields of a dig that hold a number of somebody else's, with what kind of number it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideNumber:
    """`entry`, `row`: where it was said; `row` is `list.key` or the name of a field, empty where the entry is about
    nothing else."""

    entry: UUID
    row: str
    what: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Street:
    """A street as it was written: its name and its town, empty where none was."""

    name: str
    town: str


def outside_numbers(entries: Sequence[Standing]) -> Iterator[OutsideNumber]:
    """Every outside number that a subject's entries give it, void entries left out. `entries`: its whole story."""
    for entry in (each for each in entries if each.void is None):
        for row in entry.rows("outside_numbers"):
            yield OutsideNumber(
                entry=entry.id,
                row=f"outside_numbers.{row['key']}",
                what=row.get("what", ""),
                number=row.get("number", ""),
            )
        if entry.kind == "outside_number_added":
            yield OutsideNumber(entry=entry.id, row="", what=entry.text("what"), number=entry.text("number"))
        for name, what in OF_A_DIG if entry.kind == "dig_opened" else ():
            if entry.text(name):
                yield OutsideNumber(entry=entry.id, row=name, what=what, number=entry.text(name))


def others_that_are_the_same(entries: Sequence[Standing]) -> Iterator[tuple[UUID, UUID]]:
    """For each record that a subject is kept for, the entry that says so, the one that happened first where several do,
    and that record. `entries`: its whole story."""
    said = [each for each in entries if each.void is None and each.kind == "made_one"]
    first: dict[UUID, UUID] = {}
    for entry in sorted(said, key=order_of_happening):
        if entry.text("other") != entry.text("subject"):
            first.setdefault(read_id(entry.text("other")), entry.id)
    yield from ((entry, other) for other, entry in first.items())


def streets_that_are_the_same(entries: Sequence[Standing]) -> Iterator[tuple[UUID, Street, Street]]:
    """The entry that says so, the street that is kept and the other one. `entries`: the whole story of an area."""
    for entry in (each for each in entries if each.void is None and each.kind == "streets_made_one"):
        kept = Street(name=entry.text("street"), town=entry.text("town"))
        other = Street(name=entry.text("other_street"), town=entry.text("other_town"))
        yield entry.id, kept, other
