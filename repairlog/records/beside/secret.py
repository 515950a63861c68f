"""Secrets of a book: every process that serves it signs with the same, and a restart signs nobody out."""

from __future__ import annotations

import secrets

from sqlalchemy import select

from repairlog.records.store import Store
from repairlog.records.tables.beside import SECRET
from repairlog.records.tables.picture import Change
from repairlog.records.tables.write import write


def secret(store: Store, name: str) -> bytes:
    """The secret of that name, 32 bytes of chance; made where there is none yet."""
    wanted = select(SECRET.c.value).where(SECRET.c.name == name)
    with store.reading() as tx:
        if there := tx.connection.execute(wanted).scalar():
            return bytes(there)
    made = Change(puts={SECRET: [{"name": name, "value": secrets.token_bytes(32)}]})
    with store.writing() as tx:
        write(tx, made, keep=True)  # another process may have been first
        return bytes(tx.connection.execute(wanted).scalar_one())
