"""Which subjects an entry is about, and what corrections ever put into it, moves counted in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import product
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.ids import as_id, read_id
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.naming import named_subjects

STORY = ("opens", "rights", *dict.fromkeys(kind.folds_in for kind in KINDS.values() if kind.folds_in))
"""As what an entry is about a subject whose story it belongs to."""


def about(entry: Standing, *, ever_in: frozenset[UUID]) -> set[tuple[UUID, str]]:
    """What an entry is about. `ever_in`: every subject in whose story its root ever stood."""
    if entry.kind in RIGHTING:
        return {(subject, "rights") for subject in ever_in}
    return set(named_subjects(entry.said, entry.by["did"]))


def puts_ever(told: Sequence[Mapping[str, Any]]) -> dict[UUID, set[tuple[str, str]]]:
    """By entry, every field and value that corrections put into it, or put into it once: what a correction of a
    correction puts in another's place counts, and what a void has taken back too.

    `told`: what was said, in the journal's order, of a whole chain; of entries whose chain is not here, less.
    """
    ever: dict[UUID, set[tuple[str, str]]] = defaultdict(set)
    for said in reversed(told):  # what speaks about a correction comes after it
        if said["kind"] != "corrected":
            continue
        fields: dict[str, set[str]] = {row["key"]: {row["field"]} for row in said.get("changes", ())}
        values: dict[str, set[str]] = {row["key"]: {row["to"]} for row in said.get("changes", ()) if "to" in row}
        for path, to in ever.pop(read_id(said["id"]), set()):
            _name, _, rest = path.partition(".")
            key, _, column = rest.partition(".")
            if column in ("field", "to"):
                (fields if column == "field" else values).setdefault(key, set()).add(to)
        for key, tos in values.items():
            ever[read_id(said["entry"])] |= set(product(fields.get(key, ()), tos))
    return ever


def ids_put(puts: Iterable[tuple[str, str]], at: Callable[[str], bool]) -> Iterator[UUID]:
    """The ids among what corrections ever put into an entry, at the paths that `at` says yes to."""
    for path, to in puts:
        if at(path) and (id := as_id(to)):  # else a value that stood there for another field
            yield id
