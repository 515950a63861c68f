"""Reading the journal once to know which lines tell each subject's story."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

import orjson
from sqlalchemy import inspect

from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.entries.naming import ids_brought, own_subject, target_of
from repairlog.records import journal, seal
from repairlog.records.store import Tx
from repairlog.records.tables import METADATA


class JournalAltered(Exception):
    """A line is not the one that was sealed there: nothing is worked out from such a journal. `facts`: its `index`."""

    code = "journal_altered"

    def __init__(self, index: int) -> None:
        super().__init__(index)
        self.facts = {"index": str(index)}


class TablesMissing(Exception):
    """Tables of the book are gone: somebody took them away. `facts`: their `names`."""

    code = "tables_missing"

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__(names)
        self.facts = {"names": ", ".join(names)}


def demand_tables(tx: Tx) -> None:
    """Raise TablesMissing unless every table of the book is there."""
    there = set(inspect(tx.connection).get_table_names())
    if missing := [name for name in METADATA.tables if name not in there]:
        raise TablesMissing(missing)


@dataclass(slots=True)
class Plan:
    """`stories`: indexes of the lines that may tell a subject's story, by subject; an entry that was ever moved is
    under every subject it may have stood in. `kinds`: of each subject. `counters`: highest counter given, by kind of
    subject, area and year. `roots`: of each correction and void, the entry that it speaks about in the end; `chains`:
    of each such entry, the places of what speaks about it, with the ids among its new values; `own`: the subject it was
    first said to be in the story of; `endings`: those among them that end a leak."""

    stories: dict[UUID, array[int]] = field(default_factory=dict)
    kinds: dict[UUID, str] = field(default_factory=dict)
    counters: dict[tuple[str, UUID, int], int] = field(default_factory=dict)
    roots: dict[UUID, UUID] = field(default_factory=dict)
    chains: dict[UUID, list[tuple[int, set[UUID]]]] = field(default_factory=dict)
    own: dict[UUID, UUID] = field(default_factory=dict)
    endings: dict[UUID, UUID | None] = field(default_factory=dict)

    @property
    def joined(self) -> set[UUID]:
        """Every leak that an ending ever joined to another, and every one to which it was joined."""
        found: set[UUID] = set()
        for ending, to in self.endings.items():
            moved = {id for _index, ids in self.chains.get(ending, ()) for id in ids}
            if to is not None or moved:
                found |= {self.own[ending], *moved} | ({to} if to else set())
        return {id for id in found if self.kinds.get(id) == "leak"}


def plan(tx: Tx) -> Plan:
    """Read every line once. Memory: some hundred bytes an entry. Raises JournalAltered, journal.HeadMissing."""
    made = Plan()
    firsts: dict[UUID, int] = {}
    size = 0
    with closing(journal.lines(tx)) as lines:
        for index, _id, line, leaf in lines:
            if index != size or not isinstance(line, bytes) or seal.leaf(line) != leaf:
                raise JournalAltered(size)
            _note(made, index, orjson.loads(line), firsts)
            size += 1
    if journal.head(tx).size != size:
        raise JournalAltered(size)
    for root, chain in made.chains.items():
        subjects = {made.own[root]}.union(*(moved for _index, moved in chain))
        for subject in subjects:
            told = made.stories.setdefault(subject, array("q"))
            told.extend(index for index, _moved in chain)
            if subject != made.own[root]:
                told.append(firsts[root])
    return made


def _note(made: Plan, index: int, sealed: dict[str, Any], firsts: dict[UUID, int]) -> None:
    said = sealed["said"]
    kind, id = KINDS[said["kind"]], read_id(said["id"])
    if (target := target_of(said)) is not None:
        root = made.roots.get(target, target)
        made.roots[id] = root
        made.chains.setdefault(root, []).append((index, ids_brought(said)))
        return
    subject = own_subject(said)
    made.stories.setdefault(subject, array("q")).append(index)
    made.own[id], firsts[id] = subject, index
    if kind.opens:
        made.kinds[id] = kind.opens
    if kind.name == "leak_ended":
        made.endings[id] = read_id(said["joined_to"]) if "joined_to" in said else None
    if "counter" in (understood := sealed["understood"]):
        key = (kind.opens, read_id(said["area"]), int(understood["happened_on"][:4]))
        made.counters[key] = max(made.counters.get(key, 0), understood["counter"])
