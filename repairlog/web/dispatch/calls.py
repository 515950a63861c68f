"""The list of calls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from urllib.parse import urlencode

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.call import OUTCOMES, REPORTS
from repairlog.records.queries.calls import CallRow, WantedCalls, calls
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.dispatch.call_filter import STATUSES, AskedCalls, asked
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.leak_filter import edge_of
from repairlog.words import _, times
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

A_PAGE = 50
"""Calls on a page."""

routes = room("calls", __name__)


@routes.get("/calls")
def page() -> ResponseReturnValue:
    """The calls that the asker may see and that fit the filter in the address, a page of them; with `as=csv` all as a
    file."""
    scope, beyond = asker().scope, edge_of(request.args)
    with store().reading() as tx:
        within = areas(scope, tx)
        of = asked(request.args, areas=within)
        wanted = of.wanted
        if "street" in of.typed:
            wanted = replace(wanted, streets=tuple(streets_named(scope, tx, part=of.typed["street"])))
        to_file = csv_wanted() and not of.wrong
        rows = [] if to_file else calls(scope, tx, wanted=wanted, beyond=beyond, most=A_PAGE + 1)
    if to_file:
        return _file(wanted, within)
    upwards = beyond is not None and beyond.towards == "newer"
    more = len(rows) > A_PAGE
    on_page = rows[-A_PAGE:] if upwards else rows[:A_PAGE]
    newer, older = (more, True) if upwards else (beyond is not None, more)
    zones = {area.id: area.zone for area in within}
    of_rows = {zones.get(row.area, "UTC") for row in on_page if row.received_at}
    may = any(asker().may("call_received", area=area.id) for area in within)
    return render_template(
        "dispatch/calls.html",
        rows=on_page,
        count=words.shown(len(on_page), more=older and bool(on_page)),
        newer=_beside(of, "newer", on_page[0]) if newer and on_page else "",
        older=_beside(of, "older", on_page[-1]) if older and on_page else "",
        newest=_address(of.typed) if beyond else "",
        file=csv_address(without=of.wrong),
        typed=of.typed,
        wrong={name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
        areas=within,
        times=times.said_once(of_rows),
        received=lambda row: words.day_and_hour(
            row.received_at, on=row.received_on, zone=zones.get(row.area, "UTC"), named=len(of_rows) > 1
        ),
        choices=_choices(),
        take_one=url_for("new_call.page") if may else "",
        address=address_of_leak,
        words=words,
        word=word,
    )


def _file(wanted: WantedCalls, within: Sequence[Area]) -> ResponseReturnValue:
    def after(tx: Tx, last: CallRow | None) -> Sequence[CallRow]:
        beyond = Edge(date.fromisoformat(last.received_on), last.id) if last else None
        return calls(asker().scope, tx, wanted=wanted, beyond=beyond, most=AT_ONCE)

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("calls"), areas=of, columns=words.columns(within), after=after)


def _choices() -> dict[str, dict[str, str]]:
    """What may be chosen in each filter that is a choice, with its word."""
    statuses = {code: _("Not ended") if code == "not_ended" else words.status_word(code) for code in STATUSES}
    return {
        "status": statuses,
        "report": {code: word(code) for code in REPORTS},
        "outcome": {code: word(code) for code in OUTCOMES},
    }


def _beside(of: AskedCalls, towards: str, row: CallRow) -> str:
    return _address({**of.typed, towards: f"{row.received_on}.{row.id}"})


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('calls.page')}?{urlencode(arguments)}".removesuffix("?")
