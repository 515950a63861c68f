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
from repairlog.web.frame.listing import Column, Listing, Way, by_day, listed
from repairlog.words import _
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word
from repairlog.words.days import day

routes = room("work_listed", __name__)


@routes.get("/work")
def page() -> ResponseReturnValue:
    """The work in somebody's hands that fits the filter in the address; with `as=csv` all of it as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        boxes = [
            Box(name="whom", label=_("Who has it"), hint=_("part of a name")),
            chosen("work", _("Work"), choices={code: word(code) for code in WORK}),
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
                shown=_shown(within),
                rows=rows,
                order=by_day(lambda row: (row.given_on, row.id)),
                about=_("What was given to somebody and is not settled yet, what was given last first."),
                empty=_("Work is given from the sheet of a leak; until it is settled it stands here."),
            ),
        )


def _shown(within: Sequence[Area]) -> Sequence[Column]:
    names = {area.id: area.name for area in within} if len(within) > 1 else {}

    def where(row: WorkRow) -> Way:
        at = url_for("sheet.page", leak=row.leak)
        return Way(text=address_of_leak(row) or row.number, address=at, before=word(row.work), small=row.number)

    return (
        Column(
            head=_("Grade"),
            cell=lambda row: (row.grade, row.rank) if row.grade else None,
            draw="grade",
            kind="mark",
            aloud=True,
        ),
        Column(head=_("What and where"), cell=where, draw="way", kind="where"),
        Column(head=_("Who has it"), cell=lambda row: row.whom, kind=("small", "whom"), phone=_("has it")),
        Column(head=_("Given on"), cell=lambda row: day(row.given_on), kind=("small", "day")),
        Column(
            head=_("To be done by"), cell=lambda row: row.by_on and day(row.by_on), kind=("small", "day"), spare=True
        ),
        Column(
            head=_("Waits on"), cell=lambda row: word(row.waits_on) if row.waits_on else "", kind="small", spare=True
        ),
        Column(head=_("Area"), cell=lambda row: names.get(row.area, ""), kind="small", spare=True),
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
