"""Sign-ins: a name and a password with which a person comes in. A person and a sign-in are two things."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from repairlog.records.beside.passwords import hashed
from repairlog.records.store import Store, Tx
from repairlog.records.tables.beside import SESSION, SIGN_IN


class NameTaken(Exception):
    """Another sign-in has that name, or that person has one already. `facts`: `name`."""

    code = "sign_in_name_taken"

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.facts = {"name": name}


class SignInUnknown(Exception):
    """There is no sign-in of that name, or it was closed. `facts`: `name`."""

    code = "sign_in_unknown"

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.facts = {"name": name.encode(errors="replace").decode()}  # such that it can be written anywhere


@dataclass(frozen=True, slots=True, kw_only=True)
class SignIn:
    """`name`: as it is shown. `password_hash`: as `passwords.fits` takes it. `closed`: nobody comes in by it."""

    person: UUID
    name: str
    password_hash: str
    closed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SignInOf:
    """Whose sign-in it is, since when, and when it was closed; None while it is open."""

    person: UUID
    name: str
    made_at: datetime
    closed_at: datetime | None


def sign_ins_of(tx: Tx, people: Collection[UUID]) -> dict[UUID, SignInOf]:
    """The sign-ins of these people, by person; most have none."""
    rows = select(SIGN_IN.c.person_id, SIGN_IN.c.name, SIGN_IN.c.made_at, SIGN_IN.c.closed_at)
    found = tx.connection.execute(rows.where(SIGN_IN.c.person_id.in_(people)))
    return {
        row.person_id: SignInOf(person=row.person_id, name=row.name, made_at=row.made_at, closed_at=row.closed_at)
        for row in found
    }


def make_sign_in(store: Store, *, person: UUID, name: str, password: str, at: datetime) -> None:
    """Let a person sign in with that name and password from now on; one of theirs that was closed gives way to it.

    Raises NameTaken.
    """
    row = {
        "person_id": person,
        "name": " ".join(name.split()),
        "search_name": search_name(name),
        "password_hash": hashed(password),
        "made_at": at,
    }
    closed = (SIGN_IN.c.person_id == person) & SIGN_IN.c.closed_at.is_not(None)
    try:
        with store.writing() as tx:
            tx.connection.execute(delete(SIGN_IN).where(closed))
            tx.connection.execute(delete(SESSION).where(SESSION.c.person_id == person))  # those of the closed one
            tx.connection.execute(insert(SIGN_IN).values(row))
    except IntegrityError as error:
        raise NameTaken(name) from error


def change_password(store: Store, name: str, *, password: str) -> None:
    """Another password from now on; whoever is signed in by the old one is signed out. Raises SignInUnknown."""
    _put(store, name, password_hash=hashed(password))


def close_sign_in(store: Store, name: str, *, at: datetime) -> None:
    """Nobody comes in by it any more, and whoever is in by it is signed out. Raises SignInUnknown."""
    _put(store, name, closed_at=at)


def sign_in_named(store: Store, name: str) -> SignIn | None:
    """The sign-in of that name, however its letters and spaces are written; None where there is none."""
    if not can_be_a_name(name):
        return None
    with store.reading() as tx:
        row = tx.connection.execute(select(SIGN_IN).where(SIGN_IN.c.search_name == search_name(name))).first()
    if row is None:
        return None
    return SignIn(
        person=row.person_id, name=row.name, password_hash=row.password_hash, closed=row.closed_at is not None
    )


def can_be_a_name(name: str) -> bool:
    """Whether it has a letter or sign at all, and none of those that no name has and not every database takes."""
    text = search_name(name)
    return bool(text) and not any(unicodedata.category(char) in ("Cc", "Cs") for char in text)


def _put(store: Store, name: str, **values: object) -> None:
    if not can_be_a_name(name):
        raise SignInUnknown(name)
    open_one = (SIGN_IN.c.search_name == search_name(name)) & SIGN_IN.c.closed_at.is_(None)
    with store.writing() as tx:
        person = tx.connection.execute(select(SIGN_IN.c.person_id).where(open_one)).scalar()
        if person is None:
            raise SignInUnknown(name)
        tx.connection.execute(update(SIGN_IN).where(SIGN_IN.c.person_id == person).values(**values))
        tx.connection.execute(delete(SESSION).where(SESSION.c.person_id == person))


def search_name(name: str) -> str:
    """A name as it is looked up: `M. Aldous` and ` m.  aldous` are one."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())
