"""Who is signed in: the browser holds chance, the book holds its digest."""

from __future__ import annotations

import secrets
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from uuid import UUID

from sqlalchemy import bindparam, delete, insert, select, update

from repairlog.records.store import Busy, Store, Tx
from repairlog.records.tables.beside import SESSION, SIGN_IN

SEEN_TO = timedelta(minutes=5)
"""How closely it is written down when a session was last used: not every page writes."""

_HELD = (  # built once: every page asks it
    select(SESSION.c.person_id, SESSION.c.began_at, SESSION.c.seen_at, SIGN_IN.c.name, SIGN_IN.c.closed_at)
    .join(SIGN_IN, SIGN_IN.c.person_id == SESSION.c.person_id)
    .where(SESSION.c.digest == bindparam("digest"))
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """Who is signed in under which name, since when, and when that was last written down as used."""

    person: UUID
    name: str
    began_at: datetime
    seen_at: datetime


def begin_session(store: Store, *, person: UUID, at: datetime, device: str = "") -> str:
    """Sign that person in; what the browser is to hold comes back. `device`: what the browser says that it is."""
    held = secrets.token_urlsafe(32)
    with store.writing() as tx:
        row = {"digest": digest_held(held), "person_id": person, "began_at": at, "seen_at": at, "device": device}
        tx.connection.execute(insert(SESSION).values(row))
    return held


def session_held(tx: Tx, held: str, *, at: datetime, idle: timedelta) -> Session | None:
    """Whose session a browser holds; None where there is none, it lay idle for longer, or the sign-in was closed."""
    row = tx.connection.execute(_HELD, {"digest": digest_held(held)}).first()
    if row is None or row.closed_at is not None or at - row.seen_at > idle:
        return None
    return Session(person=row.person_id, name=row.name, began_at=row.began_at, seen_at=row.seen_at)


def end_session(store: Store, held: str) -> None:
    """Sign out; nothing happens where there is no such session."""
    with store.writing() as tx:
        tx.connection.execute(delete(SESSION).where(SESSION.c.digest == digest_held(held)))


def mark_seen(store: Store, held: str, *, at: datetime, idle: timedelta) -> None:
    """Write down that a session is used at that moment; those that lay idle for longer go."""
    with suppress(Busy), store.writing() as tx:  # who only reads is not sent away because others write
        tx.connection.execute(update(SESSION).where(SESSION.c.digest == digest_held(held)).values(seen_at=at))
        tx.connection.execute(delete(SESSION).where(SESSION.c.seen_at < at - idle))


def digest_held(held: str) -> bytes:
    """What the book keeps of that."""
    return sha256(held.encode()).digest()
