"""The list of digs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.digs_listed import STATUSES, ListedDig, WantedDigs, digs_listed
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import area_in, typed_in, wrong_of
from repairlog.web.frame.leak_filter import edge_of
from repairlog.web.frame.listing import Filter, Listing, listed
from repairlog.words import _
from repairlog.words import places as words

FOUND = ("source", "nothing", "other_pipe")

routes = room("digs_listed", __name__)


@routes.get("/digs")
def page() -> ResponseReturnValue:
    """The digs that fit the filter in the address, the newest first; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
    typed = typed_in(request.args, ("number", "status", "found", "owed", "area"))
    area = area_in(typed, within)
    wrong = wrong_of(typed, area=area, choices={"status": STATUSES, "found": FOUND, "owed": ("yes",)})
    good = {name: text for name, text in typed.items() if name not in wrong}
    wanted = WantedDigs(
        area=area,
        status=good.get("status", ""),
        found=good.get("found", ""),
        number=good.get("number", ""),
        owed="owed" in good,
    )

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[ListedDig]:
        beyond = Edge(date.fromisoformat(last.opened_on), last.id) if isinstance(last, ListedDig) else last
        edge = beyond if isinstance(beyond, Edge) else None
        return digs_listed(asker().scope, tx, digging=wanted, beyond=edge, most=most)

    return listed(
        Listing(
            title=_("Digs"),
            name=_("digs"),
            areas=[each for each in within if area in (None, each.id)],
            columns=_columns(within),
            days=(_("Opened on"), _("Backfilled on"), _("Owed by")),
            leads=lambda dig: f"{url_for('sheet.page', leak=dig.leak)}#e-{dig.id}" if dig.leak else "",
            rows=rows,
            edge=lambda dig: f"{dig.opened_on}.{dig.id}",
            after=edge_of(request.args),
            of=_filter(typed, wrong, within),
            about=_("Every excavation, the newest first, with what was found and what is still owed for it."),
            empty=_("A dig is opened from the sheet of a leak; each will stand here in a line."),
        )
    )


def _filter(typed: Mapping[str, str], wrong: Mapping[str, str], within: Sequence[Area]) -> Filter:
    choices = {
        "status": (_("How it stands"), {code: words.dig_status(code) for code in STATUSES}),
        "found": (_("What was found"), {code: words.dig_found(code) for code in FOUND}),
        "owed": (_("Which"), {"yes": _("restoration owed")}),
    }
    if len(within) > 1 or "area" in typed:
        choices["area"] = (_("Area"), {area.code: area.name for area in within})
    return Filter(
        typed=typed, wrong=wrong, texts={"number": (_("Ticket, permit or leak"), _("its number"))}, choices=choices
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
