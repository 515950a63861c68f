"""Operating areas: a list of them, one with its settings and who has a role there, and what is said of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.intake.measures import atmosphere_of
from repairlog.records.queries.areas_listed import LeaksThere, counted, holders, leaks_there
from repairlog.records.queries.crews import crews_of
from repairlog.records.queries.settings import areas, operator
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters, told_of
from repairlog.web.frame.filters import Asked
from repairlog.web.frame.listing import Column, Listing, Way, all_at_once, by_id, listed
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.web.frame.there import hide, operators_own, people_to_choose
from repairlog.words import _
from repairlog.words import areas as words
from repairlog.words.codes import word
from repairlog.words.days import day
from repairlog.words.gaps import how_soon, own_work

routes = room("areas", __name__)

ORDER = by_id(lambda row: row.area.id)

NO_LEAKS = LeaksThere(open=0, all=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """An area as the list tells of it. `atmosphere`: kilopascal absolute."""

    area: Area
    leaks: LeaksThere
    atmosphere: Decimal


@routes.get("/areas")
def page() -> ResponseReturnValue:
    """The asker's operating areas with their settings; with `as=csv` as a file."""
    with store().reading() as tx:
        rows, of_book = _rows(tx), operator(asker().scope, tx)
        ways = []
        if of_book:
            at = url_for("operator.page", operator=of_book.id)
            ways = [(_("Operator: {name}").format(name=of_book.name), at)]
        return listed(
            tx,
            Listing(
                title=_("Operating areas"),
                name=_("areas"),
                of=Asked(within=[row.area for row in rows]),
                columns=_columns(),
                shown=_shown(),
                rows=all_at_once(lambda _tx: rows, order=ORDER),
                order=ORDER,
                does=[(_("Add an area"), url_for("areas.new"))] if asker().may("area_opened", area=None) else [],
                ways=ways,
                about=_("An area has a time zone, a code that its leak numbers begin with, and its own people."),
            ),
        )


def _shown() -> Sequence[Column]:
    def open_leaks(row: Row) -> Way:
        return Way(text=str(row.leaks.open), address=url_for("leaks.page", area=row.area.code, status="open"))

    return (
        Column(
            head=_("Area"),
            cell=lambda row: Way(text=row.area.name, address=url_for("areas.one", area=row.area.id)),
            draw="way",
            kind="where",
        ),
        Column(head=_("Code"), cell=lambda row: row.area.code, kind="small"),
        Column(head=_("Time zone"), cell=lambda row: row.area.zone, kind="small", phone=_("zone")),
        Column(
            head=_("Height and atmosphere"),
            cell=lambda row: (words.height(row.area), words.atmosphere(row.atmosphere)),
            draw="beside",
        ),
        Column(
            head=_("100 %LEL is"),
            cell=lambda row: _("{basis} % methane").format(basis=row.area.lel_basis),
            kind="small",
            phone=_("100 %LEL is"),
        ),
        Column(
            head=_("Cut-over day"),
            cell=lambda row: row.area.cut_over_on and day(row.area.cut_over_on),
            kind=("small", "day"),
            phone=_("cut-over"),
        ),
        Column(head=_("Open leaks"), cell=open_leaks, draw="way", kind="number"),
    )


@routes.get("/areas/<uuid:area>")
def one(area: UUID) -> ResponseReturnValue:
    """That area: its settings, how far it has counted, who has a role there, its crews, and every entry about it."""
    who = asker()
    with store().reading() as tx:
        row = next((row for row in _rows(tx) if row.area.id == area), None)
        if row is None:
            abort(404)
        told = told_of(tx, area)
        numbers = counted(who.scope, tx, area=area)
        crews = crews_of(who.scope, tx, area=area)
        people = holders(who.scope, tx, area=area, on=date.fromisoformat(who.on)) if who.holds(*KEEP_THE_BOOKS) else []
    return render_template(
        "admin/area.html",
        row=row,
        area=row.area,
        of=told,
        on=who.on,
        numbers=numbers,
        crews=crews,
        holders=people,
        sees_people=who.holds(*KEEP_THE_BOOKS),
        words=words,
        word=word,
        day=day,
        says=[how_soon(row.area.typing_hours), own_work(accepts=row.area.own_acceptance)],
        ways=list(_ways(area)),
    )


def _ways(area: UUID) -> Iterator[tuple[str, str]]:
    """What the asker may say of that area, with its address."""
    offered = (
        ("cut_over_set", _("Set the cut-over day"), "areas.cut_over"),
        ("typing_time_set", _("Say how soon an entry is typed"), "area_says.typing_time"),
        ("own_acceptance_said", _("Say who accepts a repair"), "area_says.own_acceptance"),
    )
    yield from ((name, url_for(at, area=area)) for kind, name, at in offered if asker().may(kind, area=area))


@routes.route("/areas/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Open an operating area."""
    with store().reading() as tx:
        clock, people = operators_own(tx), people_to_choose(tx)
    return enters(
        Says(
            kind="area_opened",
            heading=_("Add an operating area"),
            save=_("Add the area"),
            called="",
            back=url_for("areas.page"),
            then="/areas/{id}",
            opens_to=asker().may("area_opened", area=None),
            areas=[clock] if clock else (),
            choices={"did.person": people},
            labels={"happened": _("Since when it is run as an area of its own")},
            begins={"zone": clock.zone if clock else ""},
            first=("elevation", "lel_basis"),
            hint=_(
                "Leak numbers begin with the code and never change. The zone says which days count; from the height"
                " follows the atmosphere by which pressures are read."
            ),
        )
    )


@routes.route("/areas/<uuid:area>/cut-over", methods=["GET", "POST"])
def cut_over(area: UUID) -> ResponseReturnValue:
    """Set the first day on which what is missing in a record of that area is raised."""
    with store().reading() as tx:
        row = next((row for row in _rows(tx) if row.area.id == area), None)
        people = people_to_choose(tx)
    hide(row)
    return enters(
        Says(
            kind="cut_over_set",
            heading=_("Set the cut-over day"),
            save=_("Set the day"),
            called=row.area.name if row else "",
            back=url_for("areas.one", area=area),
            then=url_for("areas.one", area=area),
            opens_to=bool(row and asker().may("cut_over_set", area=area)),
            areas=[row.area] if row else (),
            said={"subject": str(area)},
            choices={"did.person": people},
            labels={"happened": _("When this was decided")},
            first=("reason",),
            told=[words.touched_by_cut_over(row.leaks.all)] if row else (),
        )
    )


def _rows(tx: Tx) -> list[Row]:
    there = leaks_there(asker().scope, tx)
    return [
        Row(area=each, leaks=there.get(each.id, NO_LEAKS), atmosphere=atmosphere_of(each))
        for each in areas(asker().scope, tx)
    ]


def _columns() -> Mapping[str, Callable[[Row], str | int]]:
    return {
        _("Area"): lambda row: row.area.name,
        _("Code"): lambda row: row.area.code,
        _("Time zone"): lambda row: row.area.zone,
        _("Height"): lambda row: row.area.elevation,
        _("Atmosphere, kPa absolute"): lambda row: f"{row.atmosphere.normalize():f}",
        _("100 %LEL is, % methane"): lambda row: row.area.lel_basis,
        _("Cut-over day"): lambda row: row.area.cut_over_on,
        _("Open leaks"): lambda row: row.leaks.open,
        _("Leaks"): lambda row: row.leaks.all,
    }
