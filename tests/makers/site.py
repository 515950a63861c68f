"""The application on a book, and a browser's part of it: signed in as whoever a test wants, without a password."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from typing import Any
from uuid import UUID

from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import Engine, Pool, insert, select
from werkzeug.test import TestResponse

from repairlog.access import Actor
from repairlog.app import lay_over, without_book
from repairlog.records.beside.passwords import hashed
from repairlog.records.beside.sessions import begin_session
from repairlog.records.beside.sign_ins import search_name
from repairlog.records.store import Store
from repairlog.records.tables.beside import SIGN_IN
from repairlog.settings import Settings
from repairlog.web.frame.asking import HELD
from tests.makers.book import Book

PASSWORD = "not used"  # of people who do not exist
TOKEN = re.compile(r'name="csrf_token" (?:type="hidden" )?value="([^"]+)"')


@dataclass(frozen=True)
class Site:
    """The application with the book it is about."""

    app: Flask
    book: Book

    def client(self, actor: Actor) -> FlaskClient:
        """A browser in which that actor's person is signed in since just now."""
        _let_in(self.book.store, actor.person)
        client = self.app.test_client()
        with client.session_transaction() as session:
            session[HELD] = begin_session(self.book.store, person=actor.person, at=datetime.now(UTC))
        return client


def _let_in(store: Store, person: UUID) -> None:
    """A sign-in of that person with the password `PASSWORD`, unless they have one."""
    name = f"sign-in {person}"
    row = {"person_id": person, "name": name, "search_name": search_name(name), "made_at": datetime.now(UTC)}
    with store.writing() as tx:
        of_theirs = tx.connection.execute(select(SIGN_IN.c.closed_at).where(SIGN_IN.c.person_id == person)).first()
        if of_theirs is None:
            tx.connection.execute(insert(SIGN_IN).values({**row, "password_hash": _hashed()}))


@cache
def _hashed() -> str:
    """Once for all tests of a process: it takes longer than a page."""
    return hashed(PASSWORD)


def site(book: Book, *, with_page: Callable[[Flask], None] | None = None) -> Site:
    """The application on that book's database, by the store that the book has open. `with_page`: lets the application
    have a page besides its own.

    An application with all its addresses and templates takes longer to make than any page; so one whose book was
    closed is laid over the next.
    """
    app = _free(with_page) or _made(with_page)
    app.config.clear()
    app.config.update(_AS_MADE[app])
    lay_over(
        app, book.store, settings=Settings(database_url=book.store.engine.url.render_as_string(hide_password=False))
    )
    _LAID[app] = (with_page, book.store.engine, book.store.engine.pool)
    return Site(app, book)


_LAID: dict[Flask, tuple[object, Engine, Pool]] = {}
"""Each application of this process: what page it has besides its own, and the engine that it lies over, with the pool
that the engine has until it is closed."""

_AS_MADE: dict[Flask, dict[str, Any]] = {}
"""How each was set when it was made: a test may set it otherwise."""


def _free(page: object) -> Flask | None:
    closed = (app for app, (its, engine, pool) in _LAID.items() if its is page and engine.pool is not pool)
    return next(closed, None)


def _made(page: Callable[[Flask], None] | None) -> Flask:
    app = without_book(https=False)
    if page is not None:
        page(app)
    _AS_MADE[app] = dict(app.config)
    return app


def send(client: FlaskClient, address: str, data: dict[str, Any], **more: Any) -> TestResponse:
    """Open the page at that address and send its form back with these fields, as a browser does."""
    token = TOKEN.search(client.get(address).text)
    assert token, f"no form at {address}"
    return client.post(address, data={"csrf_token": token[1], **data}, **more)
