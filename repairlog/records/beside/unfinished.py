"""Unfinished: what was typed and is not saved yet. One row a call, gone when it is posted, kept 90 days."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from sqlalchemy import Row, bindparam, delete, func, select, tuple_, update

from repairlog.records.columns import IDS
from repairlog.records.store import Store, Tx
from repairlog.records.tables.beside import UNFINISHED, WAITS_FOR
from repairlog.records.tables.picture import Change
from repairlog.records.tables.write import write

KEPT = timedelta(days=90)
"""How long it is kept."""

_WAITS = select(WAITS_FOR.c.unfinished_id, WAITS_FOR.c.person_id).where(WAITS_FOR.c.id.in_(IDS))
_WAITING = (
    select(UNFINISHED)
    .where(tuple_(UNFINISHED.c.id, UNFINISHED.c.person_id).in_(_WAITS))
    .order_by(UNFINISHED.c.kept_at, UNFINISHED.c.id)
)
_HOW_MANY = select(func.count()).where(UNFINISHED.c.person_id == bindparam("person"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unfinished:
    """`id`: of the first entry in it. `because`: not_understood, refused, sent_back, waits or conflict. `form`: which
    form, `entries` for a call of the API. `raw`: the fields as they came. `actor`: who sent it and how sure, for what
    is tried again by itself. `waits_for`: subjects or entries that are not there yet. `sent_back_by`, `word`: who sent
    back what was refused, and what they said about it."""

    id: UUID
    person: UUID
    because: str
    form: str
    raw: object
    kept_at: datetime
    actor: object = None
    waits_for: frozenset[UUID] = frozenset()
    sent_back_by: UUID | None = None
    word: str = ""


def keep(store: Store, unfinished: Unfinished) -> None:
    """Keep what was typed; an earlier row of that person and id gives way to it, and what was kept too long goes."""
    row = {
        "id": unfinished.id,
        "person_id": unfinished.person,
        "because": unfinished.because,
        "form": unfinished.form,
        "raw": json.dumps(unfinished.raw),  # of ASCII alone, so that what nobody could read can be kept all the same
        "kept_at": unfinished.kept_at,
        "actor": json.dumps(unfinished.actor) if unfinished.actor is not None else None,
        "sent_back_by_id": unfinished.sent_back_by,
        "word": unfinished.word or None,
    }
    change = Change(puts={UNFINISHED: [row]})
    if unfinished.waits_for:
        whose = {"unfinished_id": unfinished.id, "person_id": unfinished.person}
        change.puts[WAITS_FOR] = [whose | {"id": id} for id in unfinished.waits_for]
    with store.writing() as tx:
        tx.connection.execute(delete(UNFINISHED).where(UNFINISHED.c.kept_at < unfinished.kept_at - KEPT))
        mine = (WAITS_FOR.c.unfinished_id == unfinished.id, WAITS_FOR.c.person_id == unfinished.person)
        tx.connection.execute(delete(WAITS_FOR).where(*mine))
        write(tx, change)


def of_person(store: Store, person: UUID) -> list[Unfinished]:
    """What that person left unfinished, the newest first."""
    with store.reading() as tx:
        return left_by(tx, person)


def left_by(tx: Tx, person: UUID, *, most: int | None = None) -> list[Unfinished]:
    """The newest of what that person left unfinished, all of it without `most`."""
    rows = select(UNFINISHED).where(UNFINISHED.c.person_id == person).order_by(UNFINISHED.c.kept_at.desc()).limit(most)
    return [_read(row, frozenset()) for row in tx.connection.execute(rows)]


def how_many(tx: Tx, person: UUID) -> int:
    """How much that person left unfinished."""
    return tx.connection.execute(_HOW_MANY, {"person": person}).scalar_one()


def refused(store: Store) -> list[Unfinished]:
    """What was refused, whoever sent it, the newest first."""
    with store.reading() as tx:
        rows = select(UNFINISHED).where(UNFINISHED.c.because == "refused").order_by(UNFINISHED.c.kept_at.desc())
        return [_read(row, frozenset()) for row in tx.connection.execute(rows)]


def send_back(store: Store, id: UUID, *, person: UUID, by: UUID, word: str) -> None:
    """Give what that person was refused back to them with a word of whoever oversees it, who sees it no more; nothing
    happens where it is not there, or not refused, any more."""
    mine = (UNFINISHED.c.id == id, UNFINISHED.c.person_id == person, UNFINISHED.c.because == "refused")
    with store.writing() as tx:
        tx.connection.execute(
            update(UNFINISHED).where(*mine).values(because="sent_back", sent_back_by_id=by, word=word)
        )


def throw_away(store: Store, id: UUID, *, person: UUID) -> None:
    """Take away what that person left unfinished under that id; nothing happens where there is none."""
    with store.writing() as tx:
        tx.connection.execute(delete(UNFINISHED).where(UNFINISHED.c.id == id, UNFINISHED.c.person_id == person))


def waiting_for(store: Store, ids: Collection[UUID]) -> list[Unfinished]:
    """What waits for one of these subjects or entries, in the order in which it was kept."""
    with store.reading() as tx:
        return [_read(row, frozenset(ids)) for row in tx.connection.execute(_WAITING, {"ids": list(ids)})]


def _read(row: Row[Any], waits_for: Iterable[UUID]) -> Unfinished:
    return Unfinished(
        id=row.id,
        person=row.person_id,
        because=row.because,
        form=row.form,
        raw=json.loads(row.raw),
        kept_at=row.kept_at,
        actor=json.loads(row.actor) if row.actor else None,
        waits_for=frozenset(waits_for),
        sent_back_by=row.sent_back_by_id,
        word=row.word or "",
    )
