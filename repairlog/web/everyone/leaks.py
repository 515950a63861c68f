"""The list of leaks."""

from __future__ import annotations

from collections.abc import Sequence

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.leaks import Edge, LeakRow, Wanted, leaks
from repairlog.records.queries.moved_away import moved_away
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.leak_filter import STATUSES, Asked, asked, edge_after, edge_of, leaks_page, wanted
from repairlog.web.frame.moved_away import sentence
from repairlog.words import _
from repairlog.words import leaks as words
from repairlog.words.addresses import address_of_leak

A_PAGE = 50
"""Leaks on a page."""

AWAY = 5
"""Leaks moved to another area that are told of where a number is looked up."""

routes = room("leaks", __name__)


@routes.get("/leaks")
def page() -> ResponseReturnValue:
    """The leaks that the asker may see and that fit the filter in the address, a page of them; with `as=csv` all of
    them as a file, unless some of the filter cannot be read: then the page says what."""
    scope, beyond = asker().scope, edge_of(request.args)
    with store().reading() as tx:
        within = areas(scope, tx)
        of = asked(request.args, areas=within)
        where = wanted(of, streets=streets_named(scope, tx, part=of.street) if of.street else None)
        to_file = csv_wanted() and not of.wrong
        rows = [] if to_file else leaks(scope, tx, where=where, beyond=beyond, most=A_PAGE + 1)
        number = where.number if not to_file else ""
        away = moved_away(scope, tx, after=None, most=AWAY, number=number) if number else []
    if to_file:
        return _file(where, within)
    gone = [sentence(each) for each in away if each.kind == "leak" and not each.seen]
    return render_template("everyone/leaks.html", **shown(rows, of, beyond=beyond, within=within), gone=gone)


def shown(rows: Sequence[LeakRow], of: Asked, *, beyond: Edge | None, within: Sequence[Area]) -> dict[str, object]:
    """What the page draws: the rows of one page, the filter as it was typed, and where the pages beside it begin."""
    page = leaks_page(rows, at_most=A_PAGE, of=of, beyond=beyond, at=url_for("leaks.page"))
    return {
        "page": page,
        "count": words.shown(len(page.rows), more=page.more),
        "file": csv_address(without=of.wrong),
        "typed": of.typed,
        "wrong": {name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
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
        return leaks(scope, tx, where=where, beyond=edge_after(last), most=AT_ONCE)

    areas = [area for area in within if where.area in (None, area.id)]
    return as_csv(name=_("leaks"), areas=areas, columns=words.columns(within), after=after)


def _open_one(within: Sequence[Area]) -> str:
    """The address for opening a leak, where the asker may open one in some area."""
    may = any(asker().may("leak_opened", area=area.id) for area in within)
    return url_for("openings.page") if may else ""
