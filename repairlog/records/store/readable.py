"""Whether a book can be read at this moment."""

from __future__ import annotations

from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from repairlog.records.store.store import GATE, Away, Busy, Store


def is_readable(store: Store) -> bool:
    """Whether a question to the book is answered now."""
    try:
        with store.reading() as tx:
            return tx.connection.execute(text(f"SELECT 1 FROM {GATE}")).scalar() == 1
    except (Away, Busy, DatabaseError):
        return False
