"""Streets by a part of their name or town: looked up among some thousand streets, never among the leaks."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import STREET
from repairlog.records.tables.search_key import search_key


def streets_named(scope: Scope, tx: Tx, *, part: str) -> list[UUID]:
    """The streets in whose name or town every word of `part` stands, capitals or not; none where it has no word."""
    words = search_key(part).split()
    if not words or not (scope.every_area or scope.areas):
        return []
    holding = [STREET.c.search_key.contains(word, autoescape=True) for word in words]
    return list(tx.connection.execute(select(STREET.c.id).where(*holding).order_by(STREET.c.id)).scalars())
