"""The list of leaks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from urllib.parse import urlencode

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.leaks import Edge, LeakRow, Wanted, leaks
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS
from repairlog.web.everyone.leak_filter import STATUSES, Asked, asked, edge_of, edge_text
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import _
from repairlog.words import leaks as words
from repairlog.words.addresses import address_of_leak

A_PAGE = 50
"""Leaks on a page."""

routes = room("leaks", __name__)


@routes.get("/leaks")
def page() -> ResponseReturnValue:
    """The leaks that the asker may see and that fit the filter in the address, a page of them; with `as=csv` all of
    them as a file, unless some of the filter cannot be read: then the page says what."""
    scope, beyond = asker().scope, edge_of(request.args)
    with store().reading() as tx:
        within = areas(scope, tx)
        wanted = asked(request.args, areas=within)
        streets = tuple(streets_named(scope, tx, part=wanted.street)) if wanted.street else None
        where = Wanted(
            area=wanted.area,
            status=wanted.status,
            grade=wanted.grade,
            streets=streets,
            from_on=wanted.from_on,
            until_on=wanted.until_on,
            number=wanted.number,
        )
        to_file = csv_wanted() and not wanted.wrong
        rows = [] if to_file else leaks(scope, tx, where=where, beyond=beyond, most=A_PAGE + 1)
    if to_file:
        return _file(where, within)
    return render_template("everyone/leaks.html", **shown(rows, wanted, beyond=beyond, within=within))


def shown(rows: Sequence[LeakRow], wanted: Asked, *, beyond: Edge | None, within: Sequence[Area]) -> dict[str, object]:
    """What the page draws: the rows of one page, the filter as it was typed, and where the pages beside it begin."""
    more = len(rows) > A_PAGE
    upwards = beyond is not None and beyond.towards == "newer"
    on_page = rows[-A_PAGE:] if upwards else rows[:A_PAGE]
    newer, older = (more, True) if upwards else (beyond is not None, more)
    return {
        "rows": on_page,
        "count": words.shown(len(on_page), more=older and bool(on_page)),
        "newer": _beside(wanted, "newer", on_page[0]) if newer and on_page else "",
        "older": _beside(wanted, "older", on_page[-1]) if older and on_page else "",
        "newest": _address(wanted.typed) if beyond else "",
        "file": csv_address(without=wanted.wrong),
        "typed": wanted.typed,
        "wrong": {name: words.filter_wrong(code, got=wanted.typed[name]) for name, code in wanted.wrong.items()},
        "areas": within,
        "statuses": {status: words.status_word(status) for status in STATUSES},
        "grades": USUAL_RANKS,
        "open_one": _open_one(within),
        "address": address_of_leak,
        "words": words,
    }


def _file(where: Wanted, within: Sequence[Area]) -> ResponseReturnValue:
    """All leaks that fit, the newest report first."""
    scope = asker().scope

    def after(tx: Tx, last: LeakRow | None) -> Sequence[LeakRow]:
        beyond = Edge(date.fromisoformat(last.reported_on), last.id) if last else None
        return leaks(scope, tx, where=where, beyond=beyond, most=AT_ONCE)

    of = [area for area in within if where.area in (None, area.id)]
    return as_csv(name=_("leaks"), areas=of, columns=words.columns(within), after=after)


def _beside(wanted: Asked, towards: str, row: LeakRow) -> str:
    return _address({**wanted.typed, towards: edge_text(row.reported_on, row.id)})


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('leaks.page')}?{urlencode(arguments)}".removesuffix("?")


def _open_one(within: Sequence[Area]) -> str:
    """The address for opening a leak, where the asker may open one in some area."""
    may = any(asker().may("leak_opened", area=area.id) for area in within)
    return url_for("openings.page") if may else ""
