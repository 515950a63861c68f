"""Tokens: what a program shows when it posts entries in a person's name. The book holds the digest alone."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from uuid import UUID

from sqlalchemy import insert, select

from repairlog.records.store import Store
from repairlog.records.tables.beside import TOKEN


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """In whose name a program sends, and since when the token is there."""

    person: UUID
    made_at: datetime


def make_token(store: Store, *, person: UUID, what: str, at: datetime) -> str:
    """A new token of that person; it is shown this once. `what`: what it is for."""
    shown = secrets.token_urlsafe(32)
    with store.writing() as tx:
        row = {"digest": _digest(shown), "person_id": person, "what": what, "made_at": at}
        tx.connection.execute(insert(TOKEN).values(row))
    return shown


def token_shown(store: Store, shown: str) -> Token | None:
    """Whose token it is; None where there is none, or it was closed."""
    wanted = select(TOKEN).where(TOKEN.c.digest == _digest(shown), TOKEN.c.closed_at.is_(None))
    with store.reading() as tx:
        row = tx.connection.execute(wanted).first()
    return Token(person=row.person_id, made_at=row.made_at) if row else None


def _digest(shown: str) -> bytes:
    return sha256(shown.encode()).digest()
