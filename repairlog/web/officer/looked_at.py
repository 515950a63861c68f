"""What inspectors looked at: for whoever answers to them to read, and to take away as a file."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from flask import abort
from flask.typing import ResponseReturnValue

from repairlog.records.queries.looked_at import LookRow, WantedLooks, look_with, lookers, looks
from repairlog.records.queries.settings import areas, operator_zone
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.filters import Asked, asked, chosen, days_between
from repairlog.web.frame.listing import Column, Listing, Way, by_id, listed
from repairlog.words import _, times
from repairlog.words import looks as words

routes = room("looked_at", __name__)


@routes.get("/looked-at")
def page() -> ResponseReturnValue:
    """The looks that fit the filter, the latest first; with `as=csv` all of them as a file."""
    scope = asker().scope
    with store().reading() as tx:
        within = areas(scope, tx)
        if not may_read(within):
            abort(403)
        zone = ZoneInfo(operator_zone(scope, tx) or "UTC")
        of = _asked(tx, within)
        wanted = _wanted(of, zone)

        def rows(tx: Tx, edge: UUID | None, *, most: int) -> Sequence[LookRow]:
            last = look_with(scope, tx, id=edge) if edge else None
            return looks(scope, tx, looked=wanted, beyond=last, most=most)

        return listed(
            tx,
            Listing(
                title=_("What inspectors looked at"),
                name=_("looked at"),
                of=of,
                columns=_columns(zone),
                shown=_shown(zone),
                rows=rows,
                order=by_id(lambda look: look.id),
                zone=lambda _look: zone.key,
                about=_(
                    "Every page and file that an inspector was shown, the latest first. It stands beside the journal,"
                    " and nobody can take a line of it away."
                ),
                nothing_fits=_("No look fits this."),
                nothing_yet=_("No inspector has looked at anything yet."),
                empty=_(
                    "Give somebody the role Inspector, with areas, a period and a last day. What they are shown will"
                    " stand here."
                ),
            ),
        )


def may_read(within: Sequence[Area]) -> bool:
    """Whether the asker may read it: in one of these areas at the least."""
    return any(asker().may("looks_read", area=area.id) for area in within)


def _asked(tx: Tx, within: Sequence[Area]) -> Asked:
    people = {str(each.id): each.name for each in lookers(asker().scope, tx)}
    nobody = _("There is no such inspector; it is left out for now.")
    return asked(
        [chosen("who", _("Who"), choices=people, any=_("anybody"), wrong=nobody), *days_between(_("From"))],
        within=within,
    )


def _wanted(of: Asked, zone: ZoneInfo) -> WantedLooks:
    first, last = of.day("from"), of.day("until")
    before = _midnight(last + timedelta(days=1), zone) if last and last < date.max else None
    return WantedLooks(person=of.id("who"), since=_midnight(first, zone) if first else None, before=before)


def _shown(zone: ZoneInfo) -> Sequence[Column]:
    def what(look: LookRow) -> Way:
        page = words.page(look.page, address=look.address)
        return Way(text=" ".join(filter(None, (page, look.number))), address=look.address)

    return (
        Column(head=_("When"), cell=lambda look: words.moment(look.at, zone=zone), kind="when"),
        Column(head=_("Who"), cell=lambda look: look.name),
        Column(head=_("What"), cell=what, draw="way", kind="where"),
        Column(head=_("Asked for"), cell=lambda look: words.asked_for(look.address), kind="small"),
    )


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
