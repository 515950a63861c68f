"""The list of digs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.digs_listed import STATUSES, ListedDig, WantedDigs, digs_listed
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area
from repairlog.web.frame.listing import Column, Listing, Way, by_day, listed
from repairlog.words import _
from repairlog.words import places as words
from repairlog.words.days import day

FOUND = ("source", "nothing", "other_pipe")

routes = room("digs_listed", __name__)


@routes.get("/digs")
def page() -> ResponseReturnValue:
    """The digs that fit the filter in the address, the newest first; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        of = _asked(within)
        wanted = WantedDigs(
            area=of.area,
            status=of.text("status"),
            found=of.text("found"),
            number=of.text("number"),
            owed=bool(of.text("owed")),
        )

        def rows(tx: Tx, edge: Edge | None, *, most: int) -> Sequence[ListedDig]:
            return digs_listed(asker().scope, tx, digging=wanted, beyond=edge, most=most)

        return listed(
            tx,
            Listing(
                title=_("Digs"),
                name=_("digs"),
                of=of,
                columns=_columns(within),
                shown=_shown(within),
                rows=rows,
                order=by_day(lambda dig: (dig.opened_on, dig.id)),
                about=_("Every excavation, the newest first, with what was found and what is still owed for it."),
                empty=_("A dig is opened from the sheet of a leak; each will stand here in a line."),
            ),
        )


def _asked(within: Sequence[Area]) -> Asked:
    boxes = [
        Box(name="number", label=_("Ticket, permit or leak"), hint=_("its number")),
        chosen("status", _("How it stands"), choices={code: words.dig_status(code) for code in STATUSES}),
        chosen("found", _("What was found"), choices={code: words.dig_found(code) for code in FOUND}),
        chosen("owed", _("Which"), choices={"yes": _("restoration owed")}),
        *of_area(within),
    ]
    return asked(boxes, within=within)


def _shown(within: Sequence[Area]) -> Sequence[Column]:
    names = {area.id: area.name for area in within} if len(within) > 1 else {}

    def where(dig: ListedDig) -> Way:
        at = f"{url_for('sheet.page', leak=dig.leak)}#e-{dig.id}" if dig.leak else ""
        return Way(text=", ".join(dig.leaks) or _("serves no leak"), address=at, small=dig.location)

    return (
        Column(head=_("Leaks and where"), cell=where, draw="way", kind="where"),
        Column(head=_("What was found"), cell=lambda dig: words.dig_found(dig.found)),
        Column(head=_("How it stands"), cell=lambda dig: words.dig_status(dig.status)),
        Column(head=_("Opened on"), cell=lambda dig: day(dig.opened_on), kind=("small", "day")),
        Column(
            head=_("Backfilled on"),
            cell=lambda dig: dig.backfilled_on and day(dig.backfilled_on),
            kind=("small", "day"),
            spare=True,
        ),
        Column(head=_("Restorations owed"), cell=lambda dig: dig.owed, kind=("number", "small"), spare=True),
        Column(
            head=_("Owed by"),
            cell=lambda dig: dig.owed_by_on and day(dig.owed_by_on),
            kind=("small", "day"),
            spare=True,
        ),
        Column(head=_("Ticket"), cell=lambda dig: dig.ticket, kind=("small", "day"), spare=True),
        Column(head=_("Area"), cell=lambda dig: names.get(dig.area, ""), kind="small", spare=True),
    )


def _columns(within: Sequence[Area]) -> Mapping[str, Callable[[ListedDig], str | int]]:
    names = {area.id: area.name for area in within}
    return {
        _("Opened on"): lambda dig: dig.opened_on,
        _("Leaks"): lambda dig: ", ".join(dig.leaks),
        _("Where, in words"): lambda dig: dig.location,
        _("What was found"): lambda dig: words.dig_found(dig.found),
        _("How it stands"): lambda dig: words.dig_status(dig.status),
        _("Ticket"): lambda dig: dig.ticket,
        _("Backfilled on"): lambda dig: dig.backfilled_on,
        _("Restorations owed"): lambda dig: dig.owed or "",
        _("Owed by"): lambda dig: dig.owed_by_on,
        _("Area"): lambda dig: names.get(dig.area, ""),
    }
