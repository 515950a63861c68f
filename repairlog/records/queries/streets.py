"""Streets by a part of their name or town: looked up among some thousand streets, never among the leaks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import STREET
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.worked import STREET_STANDS_FOR

_SAME = select(STREET_STANDS_FOR.c.kept_id, STREET_STANDS_FOR.c.kept_name, STREET_STANDS_FOR.c.other_id)


def streets_named(scope: Scope, tx: Tx, *, part: str) -> list[UUID]:
    """The streets in whose name or town every word of `part` stands, capitals or not, and those that are the same under
    another name; none where it has no word."""
    words = search_key(part).split()
    if not words or scope.sees_nothing:
        return []
    holding = [STREET.c.search_key.contains(word, autoescape=True) for word in words]
    found = set(tx.connection.execute(select(STREET.c.id).where(*holding)).scalars())
    same = tx.connection.execute(_SAME).all()  # as many as somebody made one by hand
    found |= {row.kept_id for row in same if all(word in search_key(row.kept_name) for word in words)}
    return sorted(_with_the_same(found, same))


def _with_the_same(found: set[UUID], same: Sequence[Any]) -> set[UUID]:
    """These streets and all that are the same, by however many steps."""
    while True:
        more = {id for row in same for id in (row.kept_id, row.other_id) if {row.kept_id, row.other_id} & found}
        if more <= found:
            return found
        found = found | more
