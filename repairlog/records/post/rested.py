"""What leaks rest on, and which leaks rest on a subject: looked up, and read as it stands."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Date, Select, bindparam, exists, or_, select

from repairlog.records.columns import IDS
from repairlog.records.effects.chains import STORY
from repairlog.records.store import Tx
from repairlog.records.tables.due import DUE_ITEM
from repairlog.records.tables.facts import ABOUT, ENTRY, SUBJECT
from repairlog.records.tables.made_one import made_one
from repairlog.records.tables.worked import LEAK, MOVED
from repairlog.trade.rests import NAMED_AS, ONE_OF_SEVERAL

_told, _used = ABOUT.alias("told"), ABOUT.alias("used")
_RESTED_ON = (
    select(_used.c.subject_id, _used.c.as_what)
    .join(_told, _told.c.entry_id == _used.c.entry_id)
    .where(_told.c.subject_id.in_(IDS), _told.c.as_what.in_(STORY), _used.c.as_what.in_(tuple(NAMED_AS)))
    .distinct()
)


_SINCE = bindparam("since", type_=Date)


def _resting(kind: str) -> Select[Any]:
    names = [as_what for as_what, each in NAMED_AS.items() if each == kind]
    return (
        select(ENTRY.c.subject_id)
        .join(ABOUT, ABOUT.c.entry_id == ENTRY.c.id)
        .join(SUBJECT, SUBJECT.c.id == ENTRY.c.subject_id)
        .where(ABOUT.c.subject_id.in_(IDS), ABOUT.c.as_what.in_(names))
        .where(SUBJECT.c.kind == "leak", ENTRY.c.happened_on >= _SINCE)
        .distinct()
    )


_RESTING = {kind: _resting(kind) for kind in dict.fromkeys(NAMED_AS.values())}

_told_later = select(ENTRY.c.id).where(ENTRY.c.subject_id == LEAK.c.id, ENTRY.c.happened_on >= _SINCE)
_owes = select(DUE_ITEM.c.subject_id).where(DUE_ITEM.c.subject_id == LEAK.c.id, DUE_ITEM.c.settled_on.is_(None))
_moved_away = select(MOVED.c.subject_id).where(MOVED.c.from_area_id.in_(IDS))
_IN_AREA = select(LEAK.c.id).where(
    or_(LEAK.c.area_id.in_(IDS), LEAK.c.id.in_(_moved_away)),
    or_(LEAK.c.status == "open", exists(_told_later), exists(_owes)),
)
"""The leaks of an area, and those that were moved away from it, that are open, owe something, or of which something was
told on that day or after it: of all others nothing that is owed hangs on what happens from then on."""


def rested_on(tx: Tx, leaks: Collection[UUID]) -> dict[UUID, str]:
    """What these leaks rest on, by id its kind: it is locked before the leaks. SQLite needs no such lock."""
    if tx.dialect == "sqlite" or not leaks:
        return {}
    found = {row.subject_id: NAMED_AS[row.as_what] for row in tx.connection.execute(_RESTED_ON, {"ids": list(leaks)})}
    for kind in ONE_OF_SEVERAL:
        if ids := [id for id, of in found.items() if of == kind]:
            found |= dict.fromkeys(made_one(tx, ids).ids, kind)
    return found


def resting_on(tx: Tx, subject: UUID, *, kind: str, since: str, same: Collection[UUID] = ()) -> set[UUID]:
    """The leaks that rest on that subject of that kind, by what happened on that day or after it; empty: on any day. Of
    an area, those too that are open or owe something; of a person, an instrument or a lot, those that rest on another
    record of it, or on one of `same`."""
    if kind == "area" and since:
        asked = {"ids": [subject], "since": date.fromisoformat(since)}
        return set(tx.connection.execute(_IN_AREA, asked).scalars())
    subjects = {subject, *same, *made_one(tx, {subject, *same}).ids} if kind in ONE_OF_SEVERAL else {subject}
    asked = {"ids": list(subjects), "since": date.fromisoformat(since) if since else date.min}
    return set(tx.connection.execute(_RESTING[kind], asked).scalars())
