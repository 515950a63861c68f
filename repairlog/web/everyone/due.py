"""What is due: what is late first, then by day, with what asks for it and who has it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any
from urllib.parse import urlencode
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.due import DayCount, DueEdge, DueRow, Like, WantedDue, due, due_by_day
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_named
from repairlog.records.queries.work import work_on
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.rulebook import TASKS
from repairlog.web.everyone.due_filter import MINE, NOBODY, Asked, asked, edge_of, edge_text, house_and_street
from repairlog.web.everyone.due_weeks import weeks_of
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import _, times
from repairlog.words import due_list as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.days import day

A_PAGE = 50
"""Items on a page."""

routes = room("due", __name__)


@routes.get("/due")
def page() -> ResponseReturnValue:
    """What is owed of the leaks that the asker may see and that fits the filter in the address, a page of it; with
    `as=csv` all of it as a file."""
    scope, after = asker().scope, edge_of(request.args.get("newer", ""))
    with store().reading() as tx:
        within = areas(scope, tx)
        crews = {crew.id: crew.name for crew in crews_in(scope, tx)}
        today = today_in(within)
        of = asked(request.args, areas=within, crews=crews, person=asker().actor.person, on=today.on)
        wanted = replace(of.wanted, like=_like(tx, of.text)) if of.text else of.wanted
        to_file = csv_wanted() and not of.wrong
        rows = [] if to_file else _rows(tx, wanted, today=today, after=after, most=A_PAGE + 1)
        counts = [] if to_file else _by_day(tx, wanted, today=today)
        who = {} if to_file else who_has(tx, rows)
    if to_file:
        return _file(wanted, within, today=today)
    return render_template(
        "everyone/due.html",
        rows=rows[:A_PAGE],
        later=_address({**of.typed, "newer": edge_text(rows[A_PAGE - 1].edge)}) if len(rows) > A_PAGE else "",
        first=_address(of.typed) if after else "",
        file=csv_address(without=of.wrong),
        weeks=weeks_of(counts, on=today.on),
        who=who,
        **_choices(of, within, crews),
        **told_in(within, today, rows=rows[:A_PAGE]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """`on`: today's day in the first of the areas. `days`: in each of them, by its own clocks."""

    on: date
    days: Mapping[UUID, date]


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


def _rows(tx: Tx, wanted: WantedDue, *, today: Today, after: DueEdge | None, most: int) -> list[DueRow]:
    at = asker().at
    return due(asker().scope, tx, on=today.on, at=at, owing=wanted, after=after, most=most, days=today.days)


def _by_day(tx: Tx, wanted: WantedDue, *, today: Today) -> list[DayCount]:
    return due_by_day(asker().scope, tx, on=today.on, at=asker().at, owing=wanted, days=today.days)


def _like(tx: Tx, text: str) -> Like:
    house, street = house_and_street(text)
    return Like(text=text, house=house, streets=tuple(streets_named(asker().scope, tx, part=street)))


def _choices(of: Asked, within: Sequence[Area], crews: Mapping[UUID, str]) -> dict[str, Any]:
    """What the filter offers and what stands in it."""
    return {
        "typed": of.typed,
        "wrong": {name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
        "areas": within,
        "tasks": {code: words.task(code) for code in (*TASKS, "restore")},
        "crews": {MINE: _("me or my crew"), NOBODY: _("no one"), **{str(id): name for id, name in crews.items()}},
    }


WORK_FOR: Mapping[str, str] = {
    "act": "repair",
    "repair": "repair",
    "permanent_repair": "permanent_repair",
    "re_evaluate": "re_evaluation",
    "follow_up": "follow_up_inspection",
    "restore": "restoration",
}
"""By what is due, the work that is given for it."""


def told_in(within: Sequence[Area], today: Today, *, rows: Sequence[DueRow]) -> dict[str, Any]:
    """How a row is told in its area, and whether the asker may give the work for it to somebody; the zone of times once
    where these rows have one, otherwise with each."""
    zones = {area.id: area.zone for area in within}
    of_rows = {zones[row.area] for row in rows if row.due_at}
    give_in = {area.id for area in within if asker().may("work_given", area=area.id)}
    return {
        "words": words,
        "day": day,
        "address": address_of_leak,
        "today": lambda row: today.days.get(row.area, today.on),
        "times": times.said_once(of_rows),
        "limit": lambda row: words.limit(row, zone=zones[row.area], named=len(of_rows) > 1),
        "on": day(today.on.isoformat()),
        "may_give": lambda row: row.leak is not None and row.area in give_in,
        "work": lambda row: WORK_FOR.get(row.task),
    }


def _file(wanted: WantedDue, within: Sequence[Area], *, today: Today) -> ResponseReturnValue:
    names: dict[UUID, Sequence[str]] = {}

    def after(tx: Tx, last: DueRow | None) -> Sequence[DueRow]:
        rows = _rows(tx, wanted, today=today, after=last.edge if last else None, most=AT_ONCE)
        names.update(who_has(tx, rows))
        return rows

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("due"), areas=of, columns=words.columns(within, who=_names(names)), after=after)


def _names(by_leak: Mapping[UUID, Sequence[str]]) -> Callable[[DueRow], str]:
    return lambda row: ", ".join(by_leak.get(row.leak, ())) if row.leak else ""


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('due.page')}?{urlencode(arguments)}".removesuffix("?")
