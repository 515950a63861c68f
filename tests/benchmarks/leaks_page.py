"""`leaks-page`: the first page of the list of leaks, and each of its filters on a book twenty times as large."""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from statistics import median
from time import perf_counter
from typing import Any
from uuid import UUID

from flask import Flask, g, render_template, template_rendered
from flask.testing import FlaskClient

from repairlog.records.store import Store, open_store
from tests.benchmarks.databases import Place
from tests.benchmarks.figure import Figure, Further, taking_turns, turns_on
from tests.benchmarks.statements import Statement, captured, driver
from tests.makers import many_leaks
from tests.makers.book import Book, opened
from tests.makers.site import Site, site

AIM = 1.5
MOST_MS = 25.0
SMALLER = 20
"""How many times smaller the book is with which each filter is compared."""

TIMES = 5

FILTERS = {
    "all": "",
    "area": "area=ES",
    "status": "status=open",
    "grade": "grade=1",
    "street": "street=fuller+lane+312",
    "streets": "street=quarry",
    "no street": "street=nowhere",
    "from": "from=2020-01-01",
    "until": "until=2020-01-01",
    "number": f"number={many_leaks.number_of(4)}",
    "beginning": "number=ES-26-00",
    "every other": "number=ES",
    "no number": "number=ZZ-1",
}
"""What is asked for, each alone, as the address says it."""

Row = namedtuple(
    "Row",
    "id number area grade rank house_number street cross_street town location status reported_on reported_known "
    "ended_how ended_on attempts gaps",
)


def run(at: Place, *, database: str, rows: int) -> Figure:
    """`rows`: leaks in the book."""
    with filled(at, how_many=rows) as pages, filled(at, how_many=max(1, rows // SMALLER)) as fewer:
        client = signed_in(pages)
        with by_hand(pages, client) as bare:
            assert _rows(bare.get("/leaks").text) == _rows(client.get("/leaks").text)
            ways: dict[str, Callable[[int], object]] = {
                "ours": lambda _turn: client.get("/leaks"),
                "bare": lambda _turn: bare.get("/leaks"),
            }
            seconds = taking_turns(ways, turns=max(TIMES, turns_on(rows)))
        further = tuple(_grown(client, signed_in(fewer)))
    ours, baseline = seconds["ours"] * 1000, seconds["bare"] * 1000
    within = Further(name="page", value=ours, ratio=ours / MOST_MS, what=f"the whole page; to {MOST_MS:g} ms, its most")
    return Figure(
        name="leaks-page",
        database=database,
        rows=rows,
        unit="ms",
        ours=ours,
        baseline=baseline,
        ratio=ours / baseline,
        aim=AIM,
        what="the statements of the page through the driver and its template, in a bare route of a bare application",
        same_rows=None,
        further=(within, *further),
    )


@contextmanager
def filled(at: Place, *, how_many: int) -> Iterator[Site]:
    """The site on a book of that many leaks."""
    store = open_store(at.fresh())
    book = opened(store)
    many_leaks.fill(book, how_many=how_many)
    pages = site(book)
    try:
        yield pages
    finally:
        store_of(pages).close()
        store.close()


def store_of(pages: Site) -> Store:
    """The store that the site reads."""
    found: Store = pages.app.extensions["repairlog.store"]
    return found


def signed_in(pages: Site) -> FlaskClient:
    """A browser of somebody who sees every area."""
    book: Book = pages.book
    return pages.client(book.officer)


@contextmanager
def by_hand(pages: Site, client: FlaskClient) -> Iterator[FlaskClient]:
    """A browser at a bare application: one route that runs the page's own statements through the driver, makes rows of
    what comes, and draws the same template with them."""
    drawn: list[dict[str, Any]] = []

    def see(_app: Flask, template: Any, context: dict[str, Any]) -> None:
        drawn.append(context)

    client.get("/leaks")
    with template_rendered.connected_to(see, pages.app), captured(store_of(pages)) as statements:
        client.get("/leaks")
    (context,) = drawn
    asking = [each for each in statements if each.gives]
    app = bare_like(pages.app)
    with driver(store_of(pages)) as connection:

        @app.before_request
        def _somebody() -> None:
            g.asker = context["g"].asker

        app.view_functions["leaks.page"] = lambda: render_template(
            "everyone/leaks.html", **{**context, "rows": _read(connection, asking)}
        )
        yield app.test_client()


def bare_like(like: Flask) -> Flask:
    """An application with nothing but the addresses of that one, which links are made of, and its templates."""
    app = Flask("bare", static_folder=None)
    app.config["SECRET_KEY"] = like.config["SECRET_KEY"]
    app.jinja_env = like.jinja_env
    for rule in like.url_map.iter_rules():
        app.add_url_rule(rule.rule, endpoint=rule.endpoint, view_func=_nothing, methods=["GET"])
    return app


def _nothing(**_where: object) -> str:
    return ""


def _read(connection: Any, asking: Sequence[Statement]) -> list[Row]:
    """Run the statements; the rows of the one that gives a page of leaks."""
    cursor = connection.cursor()
    rows: list[Row] = []
    for each in asking:
        cursor.execute(each.sql, each.parameters)
        found = cursor.fetchall()
        if "gaps" in (at := {column[0]: place for place, column in enumerate(cursor.description)}):
            rows = [_row(row, at) for row in found[:50]]
    connection.rollback()
    return rows


def _row(row: Sequence[Any], at: dict[str, int]) -> Row:
    id, area = row[at["id"]], row[at["area_id"]]
    return Row(
        UUID(bytes=id) if isinstance(id, bytes) else id,
        row[at["number"]],
        UUID(bytes=area) if isinstance(area, bytes) else area,
        row[at["grade_now"]] or "",
        row[at["rank_now"]],
        row[at["house_number"]] or "",
        row[at["street"]] or "",
        row[at["cross_street"]] or "",
        row[at["town"]] or "",
        row[at["location"]] or "",
        row[at["status"]],
        str(row[at["reported_on"]]),
        row[at["happened_known"]] or "",
        row[at["ended_how"]] or "",
        str(row[at["ended_on"]] or ""),
        row[at["attempts"]],
        row[at["gaps"]],
    )


def _rows(page: str) -> str:
    """The part of the page that shows the leaks."""
    return page.partition("<tbody>")[2].partition("</tbody>")[0]


def _grown(client: FlaskClient, fewer: FlaskClient) -> Iterator[Further]:
    """Each filter alone on the book, and how it grew from one that is so many times smaller."""
    for name, asked in FILTERS.items():
        here, there = (_median_ms(browser, f"/leaks?{asked}") for browser in (client, fewer))
        what = f"/leaks?{asked}; to the same on {SMALLER} times fewer leaks, aim at most 2"
        yield Further(name=name, value=here, ratio=here / there, what=what)


def _median_ms(client: FlaskClient, address: str) -> float:
    client.get(address)
    taken = []
    for _ in range(TIMES):
        began = perf_counter()
        client.get(address)
        taken.append((perf_counter() - began) * 1000)
    return median(taken)
