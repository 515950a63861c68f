"""What leaks rest on, and which leaks rest on a subject: looked up, and read as it stands."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import Select, select

from repairlog.entries.ids import as_id
from repairlog.entries.naming import named_subjects, target_of
from repairlog.records.columns import IDS
from repairlog.records.effects.chains import STORY, puts_ever
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT, ENTRY, SUBJECT
from repairlog.records.tables.read_back import area_of, lot_of
from repairlog.records.tables.worked import AREA, LOT
from repairlog.trade.rests import NAMED_AS, Rested, kinds_named, of_a_leak

ByKind = Mapping[str, Collection[UUID]]
"""Ids of subjects by their kind."""

_told, _used = ABOUT.alias("told"), ABOUT.alias("used")
_RESTED_ON = (
    select(_used.c.subject_id, _used.c.as_what)
    .join(_told, _told.c.entry_id == _used.c.entry_id)
    .where(_told.c.subject_id.in_(IDS), _told.c.as_what.in_(STORY), _used.c.as_what.in_(tuple(NAMED_AS)))
    .distinct()
)


def _resting(kind: str) -> Select[Any]:
    names = [as_what for as_what, each in NAMED_AS.items() if each == kind]
    return (
        select(ENTRY.c.subject_id)
        .join(ABOUT, ABOUT.c.entry_id == ENTRY.c.id)
        .join(SUBJECT, SUBJECT.c.id == ENTRY.c.subject_id)
        .where(ABOUT.c.subject_id.in_(IDS), ABOUT.c.as_what.in_(names), SUBJECT.c.kind == "leak")
        .distinct()
    )


_RESTING = {kind: _resting(kind) for kind in dict.fromkeys(NAMED_AS.values())}


def rested_on(tx: Tx, leaks: Collection[UUID]) -> dict[UUID, str]:
    """What these leaks rest on, by id its kind: it is locked before the leaks. SQLite needs no such lock."""
    if tx.dialect == "sqlite" or not leaks:
        return {}
    found = tx.connection.execute(_RESTED_ON, {"ids": list(leaks)})
    return {row.subject_id: NAMED_AS[row.as_what] for row in found}


def resting_on(tx: Tx, subject: UUID, *, kind: str) -> set[UUID]:
    """The leaks that rest on that subject of that kind."""
    return set(tx.connection.execute(_RESTING[kind], {"ids": [subject]}).scalars())


def named_by(told: Sequence[Mapping[str, Any]]) -> dict[str, set[UUID]]:
    """What leaks' entries name that they rest on, and what corrections name or named in its place, by kind.

    `told`: what was said, in the journal's order, of leaks and of others.
    """
    named: dict[str, set[UUID]] = defaultdict(set)
    for said in told:
        if target_of(said) is None and of_a_leak(said["kind"]):
            for subject, as_what in named_subjects(said):
                if as_what in NAMED_AS:
                    named[NAMED_AS[as_what]].add(subject)
    for path, to in {put for puts in puts_ever(told).values() for put in puts}:
        if id := as_id(to):
            for kind in kinds_named([path]):
                named[kind].add(id)
    return named


def read(tx: Tx, wanted: ByKind) -> dict[UUID, Rested]:
    """These subjects by id, as their worked rows have them; none where a subject is not of the kind it is named as."""
    found: dict[UUID, Rested] = {}
    for kind, ids in wanted.items():
        if ids:
            found |= _READ[kind](tx, ids)
    return found


_AREAS = select(AREA).where(AREA.c.id.in_(IDS))
_LOTS = select(LOT).where(LOT.c.id.in_(IDS))


def _areas(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {row.id: area_of(row) for row in tx.connection.execute(_AREAS, {"ids": list(ids)})}


def _lots(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Rested]:
    return {row.id: lot_of(row) for row in tx.connection.execute(_LOTS, {"ids": list(ids)})}


_READ: Mapping[str, Callable[[Tx, Collection[UUID]], dict[UUID, Rested]]] = {"area": _areas, "lot": _lots}
