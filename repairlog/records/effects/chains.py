"""Which subject an entry belongs to, and which subjects it is about, corrections and moves counted in."""

from __future__ import annotations

from uuid import UUID

from repairlog.entries.entry import Standing, named_subjects
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, RIGHTING

STORY = ("opens", "rights", *dict.fromkeys(kind.folds_in for kind in KINDS.values() if kind.folds_in))
"""As what an entry is about a subject whose story it belongs to."""


def own_subject(entry: Standing) -> UUID:
    """The subject in whose story an entry that is no correction stands."""
    folds_in = KINDS[entry.kind].folds_in
    return read_id(entry.said[folds_in]) if folds_in else entry.id


def about(entry: Standing, *, ever_in: frozenset[UUID]) -> set[tuple[UUID, str]]:
    """What an entry is about. `ever_in`: every subject in whose story its root ever stood."""
    if entry.kind in RIGHTING:
        return {(subject, "rights") for subject in ever_in}
    return set(named_subjects(entry.said, entry.by["did"]))


def moved_to(correction: Standing, *, kind: str) -> UUID | None:
    """The subject that a correction moves an entry of that kind to; None if it moves nothing."""
    folds_in = KINDS[kind].folds_in
    if not folds_in or correction.kind != "corrected":
        return None
    for change in correction.rows("changes"):
        if change["field"] == folds_in and "to" in change:
            return read_id(change["to"])
    return None
