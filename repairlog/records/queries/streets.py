"""Streets by a part of their name or town: looked up among some thousand streets, never among the leaks."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import OF_KIND, STREET
from repairlog.records.tables.made_one import end_of
from repairlog.records.tables.search_key import search_key, words_in
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import STREET_STANDS_FOR

_SAID = OF_KIND["streets_made_one"]
_SAME = select(STREET_STANDS_FOR.c.kept_id, STREET_STANDS_FOR.c.kept_name, STREET_STANDS_FOR.c.other_id)


def streets_named(scope: Scope, tx: Tx, *, part: str) -> list[UUID]:
    """The streets in whose name or town every word of `part` stands, capitals or not, and those that are the same under
    another name; none where it has no word."""
    words = words_in(part)
    if not words or scope.sees_nothing:
        return []
    holding = [STREET.c.search_key.contains(word, autoescape=True) for word in words]
    found = set(tx.connection.execute(select(STREET.c.id).where(*holding)).scalars())
    same = tx.connection.execute(_SAME).all()  # as many as somebody made one by hand
    found |= {row.kept_id for row in same if all(word in search_key(row.kept_name) for word in words)}
    return sorted(_with_the_same(found, same))


def streets_shown(scope: Scope, tx: Tx) -> Mapping[UUID, UUID]:
    """By street that is the same as another, the one that is shown for both: the one that is kept in the end, where any
    entry names that, else the first of those that are named."""
    if scope.sees_nothing:
        return {}
    step = {row.other_id: row.kept_id for row in tx.connection.execute(_SAME.order_by(STREET_STANDS_FOR.c.kept_id))}
    end = {id: end_of(id, step) for id in {*step, *step.values()}}
    named = set(tx.connection.execute(select(STREET.c.id).where(STREET.c.id.in_(end))).scalars())
    members: dict[UUID, list[UUID]] = {}
    for id in sorted(end.keys() & named):
        members.setdefault(end[id], []).append(id)
    shown = {kept: kept if kept in named else there[0] for kept, there in members.items()}
    return {id: shown[end[id]] for id in end.keys() & named if shown[end[id]] != id}


@dataclass(frozen=True, slots=True, kw_only=True)
class StreetsMadeOne:
    """An entry by which two names of a street were made one. `kept`: the name that is kept; `area`: in whose story the
    entry stands; `other`: the street under the other name, which it is called no more."""

    entry: UUID
    area: UUID
    kept: str
    other: UUID
    written: str


def streets_made_one(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[StreetsMadeOne]:
    """The entries of areas in scope by which another name was made one with one of these streets."""
    rows = (
        select(STREET_STANDS_FOR, _SAID.c.other_street, _SAID.c.other_town)
        .join(_SAID, _SAID.c.id == STREET_STANDS_FOR.c.entry_id)
        .where(or_(STREET_STANDS_FOR.c.kept_id.in_(ids), STREET_STANDS_FOR.c.other_id.in_(ids)))
        .where(within(scope, STREET_STANDS_FOR.c.area_id))
        .order_by(STREET_STANDS_FOR.c.kept_name, STREET_STANDS_FOR.c.entry_id)
    )
    return [
        StreetsMadeOne(
            entry=row.entry_id,
            area=row.area_id,
            kept=row.kept_name,
            other=row.other_id,
            written=", ".join(filter(None, (row.other_street, row.other_town))),
        )
        for row in tx.connection.execute(rows)
    ]


def _with_the_same(found: set[UUID], same: Sequence[Any]) -> set[UUID]:
    """These streets and all that are the same, by however many steps."""
    while True:
        more = {id for row in same for id in (row.kept_id, row.other_id) if {row.kept_id, row.other_id} & found}
        if more <= found:
            return found
        found = found | more
