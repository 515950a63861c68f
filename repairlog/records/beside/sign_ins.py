"""Sign-ins: a name and a password with which a person comes in. A person and a sign-in are two things."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import insert, select

from repairlog.records.beside.passwords import hashed
from repairlog.records.store import Store
from repairlog.records.tables.beside import SIGN_IN


class NameTaken(Exception):
    """Another sign-in has that name, or that person has one already. `facts`: `name`."""

    code = "sign_in_name_taken"

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.facts = {"name": name}


@dataclass(frozen=True, slots=True, kw_only=True)
class SignIn:
    """`name`: as it is shown. `password_hash`: as `passwords.fits` takes it. `closed`: nobody comes in by it."""

    person: UUID
    name: str
    password_hash: str
    closed: bool


def make_sign_in(store: Store, *, person: UUID, name: str, password: str, at: datetime) -> None:
    """Let a person sign in with that name and password from now on. Raises NameTaken."""
    row = {
        "person_id": person,
        "name": name.strip(),
        "search_name": search_name(name),
        "password_hash": hashed(password),
        "made_at": at,
    }
    with store.writing() as tx:
        same = (SIGN_IN.c.search_name == row["search_name"]) | (SIGN_IN.c.person_id == person)
        if tx.connection.execute(select(SIGN_IN.c.name).where(same)).first():
            raise NameTaken(name)
        tx.connection.execute(insert(SIGN_IN).values(row))


def sign_in_named(store: Store, name: str) -> SignIn | None:
    """The sign-in of that name, however its letters and spaces are written; None where there is none."""
    with store.reading() as tx:
        row = tx.connection.execute(select(SIGN_IN).where(SIGN_IN.c.search_name == search_name(name))).first()
    if row is None:
        return None
    return SignIn(
        person=row.person_id, name=row.name, password_hash=row.password_hash, closed=row.closed_at is not None
    )


def search_name(name: str) -> str:
    """A name as it is looked up: `M. Aldous` and ` m.  aldous` are one."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())
