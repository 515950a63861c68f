"""A program that posts entries in a person's name, by a token of that person."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from repairlog.access import Actor
from repairlog.entries.ids import read_id
from repairlog.records.beside.tokens import make_token
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers.site import Site

ROLES = ("crew", "supervisor", "officer", "administrator", "foreign")
"""Those who ask in tests of rights: `foreign` is a supervisor of the other area."""


@dataclass(frozen=True)
class Program:
    """The test client with the token that it shows; empty: it shows none."""

    client: FlaskClient
    token: str

    def post(self, body: Any, **more: Any) -> TestResponse:
        """Post that body: bytes and text as they are, anything else as JSON."""
        data = body if isinstance(body, bytes | str) else json.dumps(body)
        headers = {"Content-Type": "application/json"} | (
            {"Authorization": f"Bearer {self.token}"} if self.token else {}
        )
        return self.client.post("/api/entries", data=data, headers=headers | more.pop("headers", {}), **more)


def program(site: Site, actor: Actor | None) -> Program:
    """A program with a token of that actor's person; without one where there is none."""
    token = token_of(site.book.store, actor) if actor else ""
    return Program(site.app.test_client(), token)


def token_of(store: Store, actor: Actor) -> str:
    """A new token of that actor's person, made just now."""
    return make_token(store, person=actor.person, what="tests", at=datetime.now(UTC))


def actors(book: m.Book) -> dict[str, Actor]:
    """By role, a person who holds it: in the book's area, the officer and the administrator in every one; `foreign` is
    added to the book here."""
    id = m.new_id()
    role = {"key": "r1", "role": "supervisor", "area": book.other_area, "from_on": "2025-01-02"}
    book.say({"kind": "person_added", "id": id, "name": "E. Nowak", "happened": "2025-01-02", "roles": [role]})
    foreign = Actor(person=read_id(id), sure="password")
    people = (book.crew, book.supervisor, book.officer, book.everyone, foreign)
    return dict(zip(ROLES, people, strict=True))
