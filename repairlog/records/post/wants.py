"""What a call of entries touches: subjects whose stories it goes into, subjects and entries it only names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Entry, named_subjects, target_of
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS


@dataclass(slots=True)
class Wants:
    """`opened`: kind and area of each subject that the call itself opens, by id. `stories`: subjects into whose story
    an entry goes, by kind where that is known from the entry alone, else an empty kind. `named`: subjects that are
    only named. `entries`: earlier entries that are named; `targets`: those that are put right."""

    opened: dict[UUID, tuple[str, UUID | None]] = field(default_factory=dict)
    stories: dict[UUID, str] = field(default_factory=dict)
    named: set[UUID] = field(default_factory=set)
    entries: set[UUID] = field(default_factory=set)
    targets: set[UUID] = field(default_factory=set)


def wants_of(fresh: Sequence[Entry]) -> Wants:
    """What these entries touch, as far as they themselves tell."""
    wants = Wants()
    here = {entry.id for entry in fresh}
    for entry in fresh:
        _add(wants, entry.said, did=entry.did)
        wants.named |= entry.rests_on.keys()  # so that no area's settings change under an entry that rests on them
    wants.named -= wants.opened.keys() | wants.stories.keys()
    wants.entries -= here
    wants.targets -= here
    return wants


def _add(wants: Wants, said: Any, *, did: Any) -> None:
    kind = KINDS[said["kind"]]
    id = read_id(said["id"])
    if kind.opens:
        wants.opened[id] = (kind.opens, read_id(said["area"]) if "area" in said else None)
    if kind.folds_in:
        refers = next(f.refers_to for f in kind.fields if f.name == kind.folds_in)
        wants.stories.setdefault(read_id(said[kind.folds_in]), refers)
    elif kind.opens:
        wants.stories[id] = kind.opens
    wants.named |= {
        subject for subject, as_what in named_subjects(said, did) if as_what not in ("opens", kind.folds_in)
    }
    wants.entries |= _entries_named(said)
    if (target := target_of(said)) is not None:
        wants.targets.add(target)


def _entries_named(said: Any) -> set[UUID]:
    kind = KINDS[said["kind"]]
    if target_of(said) is not None:
        return set()
    named = {read_id(said[f.name]) for f in kind.fields if f.kind == "entry" and f.name in said}
    for rows in kind.rows:
        for each in (f.name for f in rows.fields if f.kind == "entry"):
            named |= {read_id(row[each]) for row in said.get(rows.name, ()) if each in row}
    return named
