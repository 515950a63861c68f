"""What a call of entries touches: subjects whose stories it goes into, subjects and entries it only names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from repairlog.entries.entry import Entry, Row
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.naming import named_entries, named_subjects, own_subject, target_of
from repairlog.trade.rests import DAY_IN_FIELD, changes_from


@dataclass(slots=True)
class Wants:
    """`opened`: kind and area of each subject that the call itself opens, by id. `stories`: subjects into whose story
    an entry goes, by kind where that is known from the entry alone, else an empty kind. `named`: subjects that are
    only named. `entries`: earlier entries that are named; `targets`: those that are put right. `changes`: of
    the stories, those into which something goes that leaks may rest on, with the first day of what it may
    change; empty: any day."""

    opened: dict[UUID, tuple[str, UUID | None]] = field(default_factory=dict)
    stories: dict[UUID, str] = field(default_factory=dict)
    named: set[UUID] = field(default_factory=set)
    entries: set[UUID] = field(default_factory=set)
    targets: set[UUID] = field(default_factory=set)
    changes: dict[UUID, str] = field(default_factory=dict)


def wants_of(fresh: Sequence[Entry]) -> Wants:
    """What these entries touch, as far as they themselves tell."""
    wants = Wants()
    here = {entry.id for entry in fresh}
    for entry in fresh:
        _add(wants, entry.said, did=entry.did, understood=entry.understood)
        wants.named |= entry.rests_on.keys()  # so that no area's settings change under an entry that rests on them
    wants.named -= wants.opened.keys() | wants.stories.keys()
    wants.entries -= here
    wants.targets -= here
    return wants


def _add(wants: Wants, said: Mapping[str, Any], *, did: Sequence[Row], understood: Mapping[str, Any]) -> None:
    kind = KINDS[said["kind"]]
    if kind.opens:
        wants.opened[read_id(said["id"])] = (kind.opens, read_id(said["area"]) if "area" in said else None)
    if kind.folds_in:
        refers = next(f.refers_to for f in kind.fields if f.name == kind.folds_in)
        wants.stories.setdefault(own_subject(said), refers)
    elif kind.opens:
        wants.stories[own_subject(said)] = kind.opens
    if said["kind"] not in RIGHTING:
        on = said[DAY_IN_FIELD[said["kind"]]] if said["kind"] in DAY_IN_FIELD else understood["happened_on"]
        since = changes_from(said["kind"], on=str(on))
        _change(wants, own_subject(said), since=since)
    wants.named |= {
        subject for subject, as_what in named_subjects(said, did) if as_what not in ("opens", kind.folds_in)
    }
    wants.entries |= named_entries(said)
    if (target := target_of(said)) is not None:
        wants.targets.add(target)


def _change(wants: Wants, subject: UUID, *, since: str | None) -> None:
    if since is not None:
        wants.changes[subject] = min(since, wants.changes.get(subject, since))
