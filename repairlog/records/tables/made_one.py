"""Which record is kept, of those that were made one, and which are shown no more because of it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, exists, or_, select, union

from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY
from repairlog.records.tables.worked import STANDS_FOR

LONGEST_CHAIN = 8
"""Steps from one record to the one that is kept for it; nobody makes longer chains, but for a ring."""

_KEPT = select(STANDS_FOR.c.other_id, STANDS_FOR.c.kept_id).where(STANDS_FOR.c.other_id.in_(IDS))


def kept_for(tx: Tx, ids: Collection[UUID]) -> dict[UUID, UUID]:
    """Of these records, those for which another is kept, with that one in the end. In a ring, and where two are kept
    for one, the smaller id is: so that everybody is shown the same."""
    step: dict[UUID, UUID] = {}
    asked = set(ids)
    for _turn in range(LONGEST_CHAIN):
        if not asked:
            break
        rows = tx.connection.execute(_KEPT.order_by(STANDS_FOR.c.kept_id.desc()), {"ids": list(asked)})
        found = {row.other_id: row.kept_id for row in rows}
        step |= found
        asked = set(found.values()) - step.keys()
    return {id: end for id in ids if (end := end_of(id, step)) != id}


@dataclass(frozen=True, slots=True)
class Sameness:
    """`others`: by record, those that it is kept for. `ids`: all that hang together so."""

    others: Mapping[UUID, tuple[UUID, ...]] = field(default_factory=dict)
    ids: frozenset[UUID] = frozenset()


_HANGS = select(STANDS_FOR.c.kept_id, STANDS_FOR.c.other_id).where(
    or_(STANDS_FOR.c.kept_id.in_(IDS), STANDS_FOR.c.other_id.in_(IDS))
)


def made_one(tx: Tx, ids: Collection[UUID]) -> Sameness:
    """All records that were made one with these, either way and by however many steps."""
    pairs: set[tuple[UUID, UUID]] = set()
    known, asked = set(ids), set(ids)
    while asked:
        rows = tx.connection.execute(_HANGS, {"ids": list(asked)})
        pairs |= {(kept, other) for kept, other in rows}
        asked = {id for pair in pairs for id in pair} - known
        known |= asked
    others: dict[UUID, tuple[UUID, ...]] = {}
    for kept, other in sorted(pairs):
        others[kept] = (*others.get(kept, ()), other)
    return Sameness(others=others, ids=frozenset(id for pair in pairs for id in pair))


def stood_for() -> Select[Any]:
    """The records that lists leave out, since another is shown for them. Those of a ring are all shown, and so are
    those whose kept one was opened in error: nobody stands for them."""
    above, sound = STANDS_FOR.alias("above"), ENTRY.alias("sound")
    at_the_end = ~exists().where(above.c.other_id == STANDS_FOR.c.kept_id)
    stands = exists().where(sound.c.id == STANDS_FOR.c.kept_id, ~sound.c.void)
    found = select(STANDS_FOR.c.other_id).where(at_the_end, stands).cte("stood_for", recursive=True)
    step = STANDS_FOR.alias("step")
    found = found.union(select(step.c.other_id).join(found, found.c.other_id == step.c.kept_id))
    return select(found.c.other_id)


def the_same_as(id: ColumnElement[Any]) -> Select[Any]:
    """The other records that were made one with the record of that column, either way and by however many steps."""
    return select(_TOGETHER.c.same).where(_TOGETHER.c.id == id, _TOGETHER.c.same != id)


def is_one_of(id: ColumnElement[Any], ids: Select[Any] | Collection[UUID]) -> ColumnElement[bool]:
    """Whether that column names one of these records, or one that was made one with one of them."""
    return or_(id.in_(ids), id.in_(select(_TOGETHER.c.same).where(_TOGETHER.c.id.in_(ids))))


_pairs = union(
    select(STANDS_FOR.c.kept_id.label("id"), STANDS_FOR.c.other_id.label("same")),
    select(STANDS_FOR.c.other_id, STANDS_FOR.c.kept_id),
).subquery("pairs")
_step = _pairs.alias("step")
_TOGETHER = select(_pairs.c.id, _pairs.c.same).cte("together", recursive=True)
_TOGETHER = _TOGETHER.union(select(_TOGETHER.c.id, _step.c.same).join(_step, _step.c.id == _TOGETHER.c.same))
"""Each record beside each that is the same; as few as somebody made one by hand."""


def end_of(id: UUID, step: Mapping[UUID, UUID]) -> UUID:
    """Where the way from that record to the one kept for it ends; in a ring at the smallest id of it."""
    seen = [id]
    while (next_one := step.get(seen[-1])) is not None:
        if next_one in seen:
            return min(seen[seen.index(next_one) :])
        seen.append(next_one)
    return seen[-1]
