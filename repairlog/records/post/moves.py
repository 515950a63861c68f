"""What a correction names anew: the story it moves an entry to, or a subject that it puts in another's place."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Entry
from repairlog.entries.ids import as_id
from repairlog.entries.kinds import KINDS, field_at
from repairlog.records.effects.chains import puts_ever
from repairlog.records.post.chain import chain_of
from repairlog.records.store import Tx

Put = tuple[str, UUID]
"""The field that a correction puts a subject into, and that subject."""


def named_anew(tx: Tx, fresh: Sequence[Entry], *, targets: Collection[UUID]) -> dict[UUID, set[Put]]:
    """By correction, what it names anew. `targets`: entries in the book that the call puts right.

    A correction of a correction names what it puts into that one: the chain tells into which field it goes.
    """
    told: list[Mapping[str, Any]] = []
    if nested := any(map(_speaks_of_changes, fresh)):
        chains = {each.id: each for target in targets for each in chain_of(tx, target)}
        told = [each.said for each in sorted(chains.values(), key=lambda each: each.index)]
    anew: dict[UUID, set[Put]] = {}
    for entry in (each for each in fresh if each.kind == "corrected"):
        before = puts_ever(told) if nested else {}
        told = [*told, entry.said] if nested else [entry.said]
        puts = {put for id, after in puts_ever(told).items() for put in after - before.get(id, set())}
        anew[entry.id] = set(_named(puts))
    return anew


def _speaks_of_changes(entry: Entry) -> bool:
    return any(change["field"].startswith("changes.") for change in entry.said.get("changes", ()))


def _named(puts: Collection[tuple[str, str]]) -> Iterator[Put]:
    for path, to in puts:
        id = as_id(to)  # none where the path is no reference in the entry that is corrected
        if id and any((field := field_at(kind, path)) and field.kind == "ref" for kind in KINDS.values()):
            yield path, id
