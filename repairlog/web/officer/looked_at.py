"""What inspectors looked at: for whoever answers to them to read, and to take away as a file."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from urllib.parse import urlencode
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.records.queries.looked_at import LookerRow, LookRow, WantedLooks, look_with, lookers, looks
from repairlog.records.queries.settings import areas, operator_zone
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import day_in
from repairlog.words import _, times
from repairlog.words import looks as words
from repairlog.words.leaks import filter_wrong

A_PAGE = 100
"""Looks on a page."""

NAMES = ("who", "from", "until")
"""The filters, as the address names them."""

routes = room("looked_at", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field of the filter. `wrong`: by field, the code of what is wrong with it. `zone`:
    the operator's, in which days and moments are told."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedLooks
    within: Sequence[Area]
    people: Sequence[LookerRow]
    zone: ZoneInfo


@routes.get("/looked-at")
def page() -> ResponseReturnValue:
    """The looks that fit the filter, the latest first; with `as=csv` all of them as a file."""
    with store().reading() as tx:
        asked = _asked(tx)
        to_file = csv_wanted() and not asked.wrong
        last = look_with(asker().scope, tx, id=older) if (older := as_id(request.args.get("older", ""))) else None
        rows = [] if to_file else looks(asker().scope, tx, looked=asked.wanted, beyond=last, most=A_PAGE + 1)
    if to_file:
        return _file(asked)
    on_page = rows[:A_PAGE]
    return render_template(
        "officer/looked_at.html",
        rows=on_page,
        older=_address({**asked.typed, "older": str(on_page[-1].id)}) if len(rows) > A_PAGE else "",
        newest=_address(asked.typed) if last else "",
        file=csv_address(without=asked.wrong),
        typed=asked.typed,
        wrong={name: filter_wrong(code, got=asked.typed[name]) for name, code in asked.wrong.items()},
        people=asked.people,
        times=times.said_once([asked.zone.key]),
        moment=lambda at: words.moment(at, zone=asked.zone),
        words=words,
    )


def may_read(within: Sequence[Area]) -> bool:
    """Whether the asker may read it: in one of these areas at the least."""
    return any(asker().may("looks_read", area=area.id) for area in within)


def _asked(tx: Tx) -> Asked:
    """The filter of this address, for whoever may read what comes of it."""
    within = areas(asker().scope, tx)
    if not may_read(within):
        abort(403)
    zone = ZoneInfo(operator_zone(asker().scope, tx) or "UTC")
    people = lookers(asker().scope, tx)
    typed = {name: text for name in NAMES if (text := " ".join(request.args.get(name, "").split()))}
    person = next((each.id for each in people if str(each.id) == typed.get("who", "")), None)
    first, last = (day_in(typed.get(name, "")) for name in ("from", "until"))
    found = {"from": first is None, "until": last is None}
    wrong = {name: "not_a_day" for name, unread in found.items() if unread and name in typed}
    wrong |= {"who": "nobody_of_these"} if "who" in typed and person is None else {}
    if first and last and last < first:
        wrong["until"], last = "until_before_from", None
    return Asked(
        typed=typed,
        wrong=wrong,
        wanted=_wanted(person, first, last, zone),
        within=within,
        people=people,
        zone=zone,
    )


def _wanted(person: UUID | None, first: date | None, last: date | None, zone: ZoneInfo) -> WantedLooks:
    before = _midnight(last + timedelta(days=1), zone) if last and last < date.max else None
    return WantedLooks(person=person, since=_midnight(first, zone) if first else None, before=before)


def _file(asked: Asked) -> ResponseReturnValue:
    def after(tx: Tx, last: LookRow | None) -> Sequence[LookRow]:
        return looks(asker().scope, tx, looked=asked.wanted, beyond=last, most=AT_ONCE)

    return as_csv(name=_("looked at"), areas=asked.within, columns=_columns(asked.zone), after=after)


def _columns(zone: ZoneInfo) -> Mapping[str, Callable[[LookRow], str | int]]:
    return {
        _("Day"): lambda row: row.at.astimezone(zone).date().isoformat(),
        _("Hour"): lambda row: times.iso(row.at, zone=zone.key, to="seconds").partition("T")[2],
        _("Who"): lambda row: row.name,
        _("Page"): lambda row: words.page(row.page, address=row.address),
        _("Number"): lambda row: row.number,
        _("Address"): lambda row: row.address,
    }


def _midnight(on: date, zone: ZoneInfo) -> datetime:
    return datetime.combine(on, time(), tzinfo=zone)


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('looked_at.page')}?{urlencode(arguments)}".removesuffix("?")
