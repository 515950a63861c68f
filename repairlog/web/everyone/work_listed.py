"""The list of work that was given to somebody and is still to be done."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.work import WORK
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.queries.work import WantedWork, WorkRow, work_listed
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import area_in, typed_in, wrong_of
from repairlog.web.frame.leak_filter import edge_of
from repairlog.web.frame.listing import Filter, Listing, listed
from repairlog.words import _
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

routes = room("work_listed", __name__)


@routes.get("/work")
def page() -> ResponseReturnValue:
    """The work in somebody's hands that fits the filter in the address; with `as=csv` all of it as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
    typed = typed_in(request.args, ("whom", "work", "area"))
    area = area_in(typed, within)
    wrong = wrong_of(typed, area=area, choices={"work": WORK})
    good = {name: text for name, text in typed.items() if name not in wrong}
    wanted = WantedWork(area=area, work=good.get("work", ""), whom=good.get("whom", ""))

    def rows(tx: Tx, last: object, *, most: int) -> Sequence[WorkRow]:
        beyond = Edge(date.fromisoformat(last.given_on), last.id) if isinstance(last, WorkRow) else last
        edge = beyond if isinstance(beyond, Edge) else None
        return work_listed(asker().scope, tx, giving=wanted, beyond=edge, most=most)

    choices = {"work": (_("Work"), {code: word(code) for code in WORK})}
    if len(within) > 1 or "area" in typed:
        choices["area"] = (_("Area"), {each.code: each.name for each in within})
    return listed(
        Listing(
            title=_("Work given"),
            name=_("work given"),
            areas=[each for each in within if area in (None, each.id)],
            columns=_columns(within),
            days=(_("Given on"), _("To be done by")),
            leads=lambda row: url_for("sheet.page", leak=row.leak),
            rows=rows,
            edge=lambda row: f"{row.given_on}.{row.id}",
            after=edge_of(request.args),
            of=Filter(
                typed=typed, wrong=wrong, texts={"whom": (_("Who has it"), _("part of a name"))}, choices=choices
            ),
            about=_("What was given to somebody and is not settled yet, what was given last first."),
            empty=_("Work is given from the sheet of a leak; until it is settled it stands here."),
        )
    )


def _columns(within: Sequence[Area]) -> Mapping[str, Callable[[WorkRow], str | int]]:
    names = {area.id: area.name for area in within}
    return {
        _("Leak"): lambda row: row.number,
        _("Work"): lambda row: word(row.work),
        _("Where"): address_of_leak,
        _("Grade"): lambda row: row.grade,
        _("Who has it"): lambda row: row.whom,
        _("Given on"): lambda row: row.given_on,
        _("To be done by"): lambda row: row.by_on,
        _("Waits on"): lambda row: word(row.waits_on) if row.waits_on else "",
        _("Area"): lambda row: names.get(row.area, ""),
    }
