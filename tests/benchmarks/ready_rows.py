"""`today-page` and `sheet-page`: a whole page, against its own template drawn with rows that are ready."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta
from itertools import cycle
from typing import Any

import time_machine
from flask import Flask, g, render_template, template_rendered
from flask.testing import FlaskClient

from repairlog.records.store import open_store
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns
from tests.benchmarks.leaks_page import bare_like
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.site import Site, site

MOST_MS = 40.0
AIM = 5.0
TURNS = 21
WHEN = m.RECEIVED + timedelta(hours=1)
AT_ONCE = 400


def run_today(at: Place, *, database: str, rows: int) -> Figure:
    """Today of somebody with every role. `rows`: leaks, each with work given, a repair that waits and a call."""
    with opened(at) as pages:
        told = [entry for _ in range(rows) for entry in _to_do(pages.book)]
        for first in range(0, len(told), AT_ONCE):
            pages.book.say(*told[first : first + AT_ONCE])
        return _measured("today-page", pages, "/today", endpoint="today.page", database=database, rows=rows)


def run_sheet(at: Place, *, database: str, rows: int) -> Figure:
    """The sheet of one leak. `rows`: its entries, a hundred at the most, of the kinds that are commonest."""
    with opened(at) as pages:
        leak = m.leak(pages.book)
        pages.book.say(leak, *_story(leak["id"], rows=min(rows, 100) - 1))
        address = f"/leaks/{leak['id']}"
        return _measured("sheet-page", pages, address, endpoint="sheet.page", database=database, rows=rows)


@contextmanager
def opened(at: Place) -> Iterator[Site]:
    """The site on a book whose area owes by a rulebook."""
    store = open_store(at.fresh(), rulebooks=RULEBOOKS)
    book = m.opened(store)
    book.say(m.role_given(str(book.everyone.person), "officer"), m.adopted(book.area), m.confirmed(book.area))
    try:
        yield site(book)
    finally:
        store.close()


def _to_do(book: m.Book) -> Iterator[dict[str, Any]]:
    leak = m.leak(book)
    yield from (leak, m.grade(leak["id"]), m.attempt(leak["id"]))
    yield from (m.given(leak["id"], person=str(book.everyone.person), by_on="2026-03-06"), c.call(book))


def _story(leak: str, *, rows: int) -> Iterator[dict[str, Any]]:
    made = cycle((m.visit, m.note, m.grade, m.attempt, m.briefing, m.source))
    yield from (next(made)(leak) for _ in range(rows))


def _measured(name: str, pages: Site, address: str, *, endpoint: str, database: str, rows: int) -> Figure:
    with time_machine.travel(WHEN, tick=True):
        client = pages.client(pages.book.everyone)
        bare = _ready(pages, client, address, endpoint=endpoint)
        assert _main(bare.get(address).text) == _main(client.get(address).text)
        ways: dict[str, Callable[[int], object]] = {
            "ours": lambda _turn: client.get(address),
            "bare": lambda _turn: bare.get(address),
        }
        seconds = taking_turns(ways, turns=TURNS)
    ours, baseline = seconds["ours"] * 1000, seconds["bare"] * 1000
    what = f"the whole page; to {MOST_MS:g} ms, its most"
    return Figure(
        name=name,
        database=database,
        rows=rows,
        unit="ms",
        ours=ours,
        baseline=baseline,
        ratio=ours / baseline,
        aim=AIM,
        what="the same template on ready rows, in a bare route of a bare application",
        same_rows=None,
        further=(Further(name="page", value=ours, ratio=ours / MOST_MS, what=what),),
    )


def _ready(pages: Site, client: FlaskClient, address: str, *, endpoint: str) -> FlaskClient:
    """A browser at a bare application that draws the page's template with what the page drew it with."""
    drawn: list[tuple[Any, dict[str, Any]]] = []

    def see(_app: Flask, template: Any, context: dict[str, Any]) -> None:
        drawn.append((template, context))

    client.get(address)
    with template_rendered.connected_to(see, pages.app):
        client.get(address)
    ((template, context),) = drawn
    app = bare_like(pages.app)

    @app.before_request
    def _somebody() -> None:
        g.asker = context["g"].asker

    app.view_functions[endpoint] = lambda **_at: render_template(template.name, **context)
    return app.test_client()


def _main(page: str) -> str:
    """The part of the page that is about what it shows."""
    return page.partition("<main")[2].partition("</main>")[0]
