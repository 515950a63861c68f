"""The stories of leaks that a list may speak about again: as sealed, and as they stand."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing
from repairlog.records import journal
from repairlog.records.effects.arranged import arranged
from repairlog.records.effects.chains import STORY
from repairlog.records.store import Tx


@dataclass(frozen=True, slots=True)
class Story:
    """`sealed`: the leak's entries by id, before any correction; `standing`: the same as they stand, void ones too, in
    the journal's order."""

    sealed: Mapping[UUID, Standing]
    standing: Sequence[Standing]

    @property
    def opened(self) -> Standing:
        """The entry that opened the leak."""
        return next(entry for entry in self.standing if entry.kind == "leak_opened")


def stories_there(tx: Tx, leaks: Collection[UUID]) -> dict[UUID, Story]:
    """The stories of those of these leaks that are in the book."""
    sealed = journal.stories(tx, leaks, as_what=STORY)
    if not sealed:
        return {}
    standing = arranged({entry.id: entry for told in sealed.values() for entry in told}.values()).stories
    return {leak: Story({each.id: each for each in sealed[leak]}, standing[leak]) for leak in leaks if leak in sealed}
