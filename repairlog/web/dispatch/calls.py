"""The list of calls."""

from __future__ import annotations

from collections.abc import Sequence

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.call import OUTCOMES, REPORTS
from repairlog.records.queries.calls import NOT_ENDED, CallRow, WantedCalls, calls
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked, Box, asked, chosen, days_between, of_area
from repairlog.web.frame.listing import Column, Listing, Way, by_day, listed
from repairlog.words import _
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

STATUSES = ("not_ended", *NOT_ENDED, "ended", "received_in_error")
"""What may be asked for as a status; `not_ended` stands for each that is none of the last two."""

routes = room("calls", __name__)


@routes.get("/calls")
def page() -> ResponseReturnValue:
    """The calls that the asker may see and that fit the filter in the address, the newest first; with `as=csv` all of
    them as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        of = asked(_boxes(within), within=within)
        wanted = _wanted(tx, of)
        zones = {area.id: area.zone for area in within}

        def rows(tx: Tx, edge: Edge | None, *, most: int) -> Sequence[CallRow]:
            return calls(asker().scope, tx, wanted=wanted, beyond=edge, most=most)

        def received(call: CallRow, *, named: bool) -> str:
            zone = zones.get(call.area, "UTC")
            return words.day_and_hour(call.received_at, on=call.received_on, zone=zone, named=named)

        may = any(asker().may("call_received", area=area.id) for area in within)
        return listed(
            tx,
            Listing(
                title=_("Calls"),
                name=_("calls"),
                of=of,
                columns=words.columns(within),
                shown=[
                    Column(head=_("Where"), cell=_where, draw="way", kind="where"),
                    Column(head=_("Reported"), cell=lambda call: word(call.report)),
                    Column(head=_("Number"), cell=lambda call: call.number, kind="own"),
                    Column(head=_("How it stands"), cell=_stands, draw="then_way"),
                    Column(head=_("Received"), cell=received, kind=("small", "day"), timed=True),
                    Column(head=_("Who has it"), cell=lambda call: call.who, kind="small", phone=_("has it")),
                ],
                rows=rows,
                order=by_day(lambda call: (call.received_on, call.id)),
                back=True,
                zone=lambda call: zones.get(call.area, "UTC") if call.received_at else "",
                does=[(_("Take a call"), url_for("new_call.page"))] if may else [],
                counted=words.number_of,
                nothing_fits=_("No call fits this."),
                nothing_yet=_("No call is in the book yet."),
                empty=_(
                    "Each call will stand here in a line, the newest first: where it is, what was reported, how it"
                    " stands and who has it."
                ),
            ),
        )


def _where(call: CallRow) -> Way:
    return Way(text=address_of_leak(call), address=url_for("call.page", call=call.id))


def _stands(call: CallRow) -> tuple[str, Way | None]:
    leak = Way(text=call.leak_number, address=url_for("sheet.page", leak=call.leak)) if call.leak_number else None
    return words.how_it_stands(call.status, outcome=call.outcome), leak


def _boxes(within: Sequence[Area]) -> list[Box]:
    statuses = {code: _("Not ended") if code == "not_ended" else words.status_word(code) for code in STATUSES}
    return [
        Box(name="number", label=_("Number"), size=14),
        Box(name="street", label=_("Street or town"), hint=_("part of a name")),
        chosen("status", _("Status"), choices=statuses),
        chosen("report", _("Reported"), choices={code: word(code) for code in REPORTS}),
        chosen("outcome", _("Outcome"), choices={code: word(code) for code in OUTCOMES}),
        *of_area(within),
        *days_between(_("Received from")),
    ]


def _wanted(tx: Tx, of: Asked) -> WantedCalls:
    status, street = of.text("status"), of.text("street")
    return WantedCalls(
        area=of.area,
        statuses=NOT_ENDED if status == "not_ended" else (status,) if status else (),
        report=of.text("report"),
        outcome=of.text("outcome"),
        from_on=of.day("from"),
        until_on=of.day("until"),
        number=of.text("number"),
        streets=tuple(streets_named(asker().scope, tx, part=street)) if street else None,
    )
