"""What is due: what is late first, then by day, with what asks for it and who has it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.due import DueEdge, DueRow, WantedDue, due, due_by_day
from repairlog.records.queries.settings import areas
from repairlog.records.queries.work import work_on
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.everyone.due_filter import asked_of_due, edge_of, edge_text, wanted
from repairlog.web.everyone.due_weeks import weeks_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.listing import Column, Listing, Order, Way, listed
from repairlog.words import _
from repairlog.words import due_list as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day

routes = room("due", __name__)

ORDER = Order(edge=lambda row: row.edge, text=lambda row: edge_text(row.edge), read=edge_of)


@routes.get("/due")
def page() -> ResponseReturnValue:
    """What is owed of the leaks that the asker may see and that fits the filter in the address; with `as=csv` all of
    it as a file."""
    scope, at = asker().scope, asker().at
    with store().reading() as tx:
        within = areas(scope, tx)
        today = today_in(within)
        of = asked_of_due(within, {crew.id: crew.name for crew in crews_in(scope, tx)})
        owing = wanted(tx, of, on=today.on)
        who: dict[UUID, Sequence[str]] = {}

        def rows(tx: Tx, edge: DueEdge | None, *, most: int) -> Sequence[DueRow]:
            found = due(scope, tx, on=today.on, at=at, owing=owing, after=edge, most=most, days=today.days)
            who.update(who_has(tx, found))
            return found

        return listed(
            tx,
            Listing(
                title=_("What is due"),
                name=_("due"),
                of=of,
                columns=words.columns(within, who=lambda row: ", ".join(who.get(row.leak, ())) if row.leak else ""),
                shown=_columns(within, today, who),
                rows=rows,
                order=ORDER,
                looks=lambda row: _looks(row, today),
                zone=lambda row: _zones(within)[row.area] if row.due_at else "",
                style="due",
                nothing_fits=_("Nothing that is due fits this."),
                nothing_yet=_("Nothing is due in what you see."),
                empty=_(
                    "Once an area has adopted a rulebook, each repair, re-evaluation and inspection that its leaks owe"
                    " stands here with its day and its clause."
                ),
                live=False,
                around=lambda tx, _rows: _around(tx, owing, today),
                template="everyone/due.html",
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """`on`: today's day in the first of the areas. `days`: in each of them, by its own clocks."""

    on: date
    days: Mapping[UUID, date]

    def of(self, row: DueRow) -> date:
        """Today's day where that is owed."""
        return self.days.get(row.area, self.on)


def today_in(within: Sequence[Area]) -> Today:
    """Today's day in these areas; in the operator's zone where there is none."""
    days = {area.id: asker().at.astimezone(ZoneInfo(area.zone)).date() for area in within}
    return Today(on=next(iter(days.values()), date.fromisoformat(asker().on)), days=days)


def who_has(tx: Tx, rows: Sequence[DueRow]) -> Mapping[UUID, Sequence[str]]:
    """By leak, the names of those who have work on it in hand, each once."""
    found: dict[UUID, list[str]] = defaultdict(list)
    for work in work_on(asker().scope, tx, leaks={row.leak for row in rows if row.leak}):
        if work.whom and work.whom not in found[work.leak]:
            found[work.leak].append(work.whom)
    return found


WORK_FOR: Mapping[str, str] = {
    "act": "repair",
    "repair": "repair",
    "permanent_repair": "permanent_repair",
    "re_evaluate": "re_evaluation",
    "follow_up": "follow_up_inspection",
    "restore": "restoration",
}
"""By what is due, the work that is given for it."""


def _gives(within: Sequence[Area], row: DueRow) -> bool:
    """Whether the asker may give the work for that to somebody."""
    return row.leak is not None and any(
        area.id == row.area and asker().may("work_given", area=area.id) for area in within
    )


def told_in(within: Sequence[Area], today: Today, *, rows: Sequence[DueRow]) -> dict[str, Any]:
    """How a row is told in its area, and whether the asker may give the work for it to somebody; the zone of times with
    each where these rows have several."""
    zones = _zones(within)
    several = len({zones[row.area] for row in rows if row.due_at}) > 1
    return {
        "words": words,
        "address": address_of_leak,
        "today": today.of,
        "limit": lambda row: words.limit(row, zone=zones[row.area], named=several),
        "may_give": lambda row: _gives(within, row),
        "work": lambda row: WORK_FOR.get(row.task),
    }


def _around(tx: Tx, owing: WantedDue, today: Today) -> Mapping[str, Any]:
    counts = due_by_day(asker().scope, tx, on=today.on, at=asker().at, owing=owing, days=today.days)
    return {"weeks": weeks_of(counts, on=today.on), "on": day(today.on.isoformat()), "day": day}


def _columns(within: Sequence[Area], today: Today, who: Mapping[UUID, Sequence[str]]) -> Sequence[Column]:
    zones = _zones(within)

    def by(row: DueRow, *, named: bool) -> Sequence[str]:
        limit = words.limit(row, zone=zones[row.area], named=named)
        return (words.lateness(row, today=today.of(row)), limit, *words.besides(row))

    def whom(row: DueRow) -> tuple[str, str, str]:
        names = ", ".join(who.get(row.leak, ())) if row.leak else ""
        give = not names and _gives(within, row)
        give_it = url_for("orders.give", leak=row.leak, work=WORK_FOR.get(row.task)) if give else ""
        return names, give_it, row.number

    return (
        Column(head=_("When"), cell=by, draw="lines", kind="by", timed=True),
        Column(
            head=_("Grade"),
            cell=lambda row: (row.grade, row.rank) if row.grade else None,
            draw="grade",
            kind="mark",
            aloud=True,
        ),
        Column(head=_("What and where"), cell=_where, draw="way", kind="where"),
        Column(head=_("Why"), cell=lambda row: (words.why(row), words.source(row)), draw="lines", kind="clause"),
        Column(head=_("Who has it"), cell=whom, draw="whom", kind="whom"),
    )


def _looks(row: DueRow, today: Today) -> str:
    weight = words.weight(row, today=today.of(row))
    return " ".join(filter(None, (f"l{weight}" if weight else "", "late" if row.late else "")))


def _where(row: DueRow) -> Way:
    task = words.task(row.task)
    if not row.leak:
        return Way(text="", before=task, small=_("a dig that serves no leak"))
    at = url_for("sheet.page", leak=row.leak)
    return Way(text=address_of_leak(row) or row.number, address=at, before=task, small=row.number)


def _zones(within: Sequence[Area]) -> dict[UUID, str]:
    return {area.id: area.zone for area in within}
