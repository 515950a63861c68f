"""The list of work that was given to somebody and is still to be done."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.work import WORK
from repairlog.records.queries.leaks import Edge
from repairlog.records.queries.settings import areas
from repairlog.records.queries.work import WantedWork, WorkRow, work_listed
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Box, asked, chosen, of_area
from repairlog.web.frame.listing import Listing, by_day, listed
from repairlog.words import _
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

routes = room("work_listed", __name__)


@routes.get("/work")
def page() -> ResponseReturnValue:
    """The work in somebody's hands that fits the filter in the address; with `as=csv` all of it as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        boxes = [
            Box(name="whom", label=_("Who has it"), hint=_("part of a name")),
            chosen("work", _("Work"), {code: word(code) for code in WORK}),
            *of_area(within),
        ]
        of = asked(boxes, within=within)
        wanted = WantedWork(area=of.area, work=of.text("work"), whom=of.text("whom"))

        def rows(tx: Tx, edge: Edge | None, *, most: int) -> Sequence[WorkRow]:
            return work_listed(asker().scope, tx, giving=wanted, beyond=edge, most=most)

        return listed(
            tx,
            Listing(
                title=_("Work given"),
                name=_("work given"),
                of=of,
                columns=_columns(within),
                days=(_("Given on"), _("To be done by")),
                leads=lambda row: url_for("sheet.page", leak=row.leak),
                rows=rows,
                order=by_day(lambda row: (row.given_on, row.id)),
                about=_("What was given to somebody and is not settled yet, what was given last first."),
                empty=_("Work is given from the sheet of a leak; until it is settled it stands here."),
            ),
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
