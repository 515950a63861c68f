"""Sealed entries arranged: as they stand, and each under the subject in whose story it stands now."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.naming import own_subject, target_of
from repairlog.entries.standing import standing
from repairlog.records.effects.chains import about, ids_put, puts_ever
from repairlog.records.effects.entries import entry_facts, entry_index
from repairlog.records.effects.folds import worked_rows
from repairlog.records.tables import facts
from repairlog.records.tables.picture import Picture, add, merged
from repairlog.trade.rests import Rests


@dataclass(frozen=True, slots=True)
class Arranged:
    """`entries`: as they stand, by id. `roots`: the entry that each speaks about in the end (itself, for most); an
    entry whose root is not here belongs to a story that is not here. `ever_in`: by root, every subject in whose story
    it ever stood. `stories`: by subject, the entries of its story as they stand, in the journal's order."""

    entries: Mapping[UUID, Standing]
    roots: Mapping[UUID, UUID]
    ever_in: Mapping[UUID, frozenset[UUID]]
    stories: Mapping[UUID, Sequence[Standing]]

    def subject_of(self, id: UUID) -> UUID:
        """In whose story that entry stands now."""
        return own_subject(self.entries[self.roots[id]].said)

    def facts_of(self, id: UUID) -> Picture:
        """The facts of one entry without its place in the journal; nothing if it is not here."""
        return entry_facts(self.entries[id]) if id in self.entries else {}

    def place_of(self, id: UUID) -> Picture:
        """The entry's rows of `entry` and `about`; nothing if it or its root is not here."""
        picture: Picture = {}
        if id not in self.roots:
            return picture
        root = self.roots[id]
        entry = self.entries[id]
        add(picture, facts.ENTRY, **entry_index(entry, subject=self.subject_of(id)))
        for subject, as_what in about(entry, ever_in=self.ever_in[root]):
            add(picture, facts.ABOUT, entry_id=id, subject_id=subject, as_what=as_what)
        return picture

    def worked(self, subjects: Mapping[UUID, str], rests: Rests) -> Picture:
        """The worked rows of these subjects (kind by id)."""
        return merged(worked_rows(kind, self.stories.get(id, ()), rests=rests) for id, kind in subjects.items())


def arranged(raw: Iterable[Standing]) -> Arranged:
    """Arrange sealed entries; with an entry come all that put it right, in whichever story they stand."""
    ordered = list(raw)
    entries = {entry.id: entry for entry in standing(ordered)}
    roots = {id: root for id in entries if (root := _root(id, entries)) is not None}
    ever: dict[UUID, set[UUID]] = {}
    puts = puts_ever([entry.said for entry in sorted(ordered, key=lambda entry: entry.index)])
    for entry in ordered:
        if entry.kind not in RIGHTING:
            folds_in = KINDS[entry.kind].folds_in
            ever[entry.id] = {own_subject(entry.said), *ids_put(puts.get(entry.id, ()), folds_in.__eq__)}
    stories: dict[UUID, list[Standing]] = defaultdict(list)
    for id, root in roots.items():
        stories[own_subject(entries[root].said)].append(entries[id])
    ever_in = {root: frozenset(subjects) for root, subjects in ever.items()}
    return Arranged(entries, roots, ever_in, dict(stories))


def _root(id: UUID, entries: Mapping[UUID, Standing]) -> UUID | None:
    while id in entries:
        target = target_of(entries[id].said)
        if target is None:
            return id
        id = target
    return None
