"""Tokens: what a program shows when it posts entries in a person's name. The book holds the digest alone."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from uuid import UUID

from sqlalchemy import insert, select, update

from repairlog.records.store import Store
from repairlog.records.tables.beside import TOKEN

MARK = 12


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


def was_closed(store: Store, shown: str) -> bool:
    """Whether it was a token of somebody's, and was closed."""
    closed = select(TOKEN.c.digest).where(TOKEN.c.digest == _digest(shown), TOKEN.c.closed_at.is_not(None))
    with store.reading() as tx:
        return tx.connection.execute(closed).first() is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A token as it is listed: `mark`, by which it is closed; whose; what it is for; since and until when."""

    mark: str
    person: UUID
    what: str
    made_at: datetime
    closed_at: datetime | None


class TokenUnknown(Exception):
    """No open token has that mark, or several begin so. `facts`: `mark`."""

    code = "token_mark_unknown"

    def __init__(self, mark: str) -> None:
        super().__init__(mark)
        self.facts = {"mark": mark.encode(errors="replace").decode()}  # such that it can be written anywhere


def mark_of(shown: str) -> str:
    """The mark of a token, which says nothing of the token itself: the first 12 hex digits of its digest."""
    return _digest(shown).hex()[:MARK]


def tokens(store: Store) -> list[Listed]:
    """Every token that was ever made, the newest last."""
    with store.reading() as tx:
        rows = tx.connection.execute(select(TOKEN).order_by(TOKEN.c.made_at, TOKEN.c.digest)).all()
    return [
        Listed(
            mark=bytes(row.digest).hex()[:MARK],
            person=row.person_id,
            what=row.what,
            made_at=row.made_at,
            closed_at=row.closed_at,
        )
        for row in rows
    ]


def close_token(store: Store, mark: str, *, at: datetime) -> None:
    """No program sends by it any more. Raises TokenUnknown."""
    with store.writing() as tx:
        open_ones = tx.connection.execute(select(TOKEN.c.digest).where(TOKEN.c.closed_at.is_(None))).scalars()
        meant = [digest for digest in open_ones if len(mark) >= MARK and bytes(digest).hex().startswith(mark)]
        if len(meant) != 1:
            raise TokenUnknown(mark)
        tx.connection.execute(update(TOKEN).where(TOKEN.c.digest == meant[0]).values(closed_at=at))


def _digest(shown: str) -> bytes:
    return sha256(shown.encode()).digest()
