"""Crews: a list of them, one with who is and was in it, and what is said of one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.companies import companies_called
from repairlog.records.queries.crews import CrewNow, crews_now
from repairlog.records.queries.made_one import sameness
from repairlog.records.queries.people import names_of
from repairlog.records.queries.people_listed import InCrew, members_of
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.crew import crew as fold
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.books import Says, enters, told_of
from repairlog.web.frame.filters import Box, asked
from repairlog.web.frame.listing import Column, Listing, Way, all_at_once, by_id, listed
from repairlog.web.frame.moved_away import way_to_move
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.web.frame.there import area_there, areas_to_choose, hide, people_to_choose
from repairlog.words import _
from repairlog.words.days import day

routes = room("crews", __name__)

ORDER = by_id(lambda row: row[0].id)


Row = tuple[CrewNow, Sequence[str]]
"""A crew, and the names of who is in it today."""


@routes.get("/crews")
def page() -> ResponseReturnValue:
    """The crews in the asker's areas that fit the filter in the address, with who is in each today; with `as=csv` all
    as a file."""
    demand_role(*KEEP_THE_BOOKS)
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        of = asked([Box(name="text", label=_("Name or outside number"), hint=_("part of a name"))], within=within)
        names = {area.id: area.name for area in within}
        may_make = any(asker().may("crew_made", area=area.id) for area in within)
        return listed(
            tx,
            Listing(
                title=_("Crews"),
                name=_("crews"),
                of=of,
                columns={
                    _("Crew"): lambda row: row[0].name,
                    _("Area"): lambda row: names.get(row[0].area, ""),
                    _("Company"): lambda row: row[0].company,
                    _("In it today"): lambda row: ", ".join(row[1]),
                },
                shown=[
                    Column(head=_("Crew"), cell=_way, draw="way", kind="where"),
                    Column(head=_("Area"), cell=lambda row: names.get(row[0].area, ""), kind="small"),
                    Column(head=_("Whose"), cell=lambda row: row[0].company or _("our own"), kind="small"),
                    Column(head=_("In it today"), cell=lambda row: ", ".join(row[1]) or _("nobody"), kind="clause"),
                ],
                rows=all_at_once(lambda tx: _rows(tx, of.text("text")), order=ORDER),
                order=ORDER,
                does=[(_("Make a crew"), url_for("crews.new"))] if may_make else [],
                ways=[(_("People"), url_for("people.page"))],
                nothing_fits=_("No crew fits this."),
                nothing_yet=_("No crew is on the books yet."),
                empty=_(
                    "A crew has a name, an area and its people by date; work is given to it, and calls are sent to it."
                ),
            ),
        )


def _way(row: Row) -> Way:
    return Way(text=row[0].name, address=url_for("crews.one", crew=row[0].id))


def _rows(tx: Tx, text: str) -> Sequence[Row]:
    crews = crews_now(asker().scope, tx, text=text)
    members = members_of(asker().scope, tx, ids=[crew.id for crew in crews])
    names = names_of(asker().scope, tx, ids={each.person for each in members})
    today: defaultdict[UUID, list[str]] = defaultdict(list)
    for each in members:
        if _covers(each, asker().on):
            today[each.crew].append(names.get(each.person, ""))
    return [(crew, sorted(today[crew.id])) for crew in crews]


@routes.get("/crews/<uuid:crew>")
def one(crew: UUID) -> ResponseReturnValue:
    """That crew: whose it is, who is and was in it, and every entry about it."""
    demand_role(*KEEP_THE_BOOKS)
    with store().reading() as tx:
        told = told_of(tx, crew)
        as_is = fold([each.entry for each in told.story.told])
        if as_is is None:
            abort(404)
        names = names_of(asker().scope, tx, ids={each.person for each in as_is.members})
        companies = companies_called(asker().scope, tx, names={each.company for each in as_is.companies})
        area = next(iter(area_there(tx, as_is.area)), None)
        same = sameness(asker().scope, tx, id=crew)
    change_it, same_as = url_for("crews.change", crew=crew), url_for("made_one.choose", subject=crew)
    return render_template(
        "admin/crew.html",
        crew=as_is,
        companies=companies,
        of=told,
        area=area,
        same=same,
        members=[(each, names.get(each.person, "")) for each in as_is.members],
        on=asker().on,
        day=day,
        ways=[
            *([(_("Change the crew"), change_it)] if asker().may("crew_changed", area=as_is.area) else []),
            *([(_("The same as another"), same_as)] if asker().may("made_one", area=as_is.area) else []),
            *way_to_move("crew", crew, area=as_is.area),
        ],
    )


@routes.route("/crews/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Make a crew."""
    with store().reading() as tx:
        here, offered = areas_to_choose(tx)
        people = people_to_choose(tx)
    return enters(
        Says(
            kind="crew_made",
            heading=_("Make a crew"),
            save=_("Make the crew"),
            called="",
            back=url_for("crews.page"),
            then="/crews/{id}",
            opens_to=any(asker().may("crew_made", area=area.id) for area in here),
            areas=here,
            choices={"area": offered, "members.person": people, "did.person": people},
            labels={"happened": _("Since when there is this crew")},
            first=("company", "members"),
        )
    )


@routes.route("/crews/<uuid:crew>/change", methods=["GET", "POST"])
def change(crew: UUID) -> ResponseReturnValue:
    """Say who joins that crew and who leaves it, its new name, or whose it is."""
    with store().reading() as tx:
        found = next((each for each in crews_now(asker().scope, tx) if each.id == crew), None)
        here = area_there(tx, found.area if found else None)
        people = people_to_choose(tx)
        members = members_of(asker().scope, tx, ids=[crew])
        names = names_of(asker().scope, tx, ids={each.person for each in members})
    hide(found)
    there = [(str(each.person), names.get(each.person, "")) for each in members if _covers(each, asker().on)]
    return enters(
        Says(
            kind="crew_changed",
            heading=_("Change the crew"),
            save=_("Save the change"),
            called=found.name if found else "",
            back=url_for("crews.one", crew=crew),
            then=url_for("crews.one", crew=crew),
            opens_to=bool(found and asker().may("crew_changed", area=found.area)),
            areas=here,
            said={"subject": str(crew)},
            choices={"joined.person": people, "left.person": there or people, "did.person": people},
            labels={"happened": _("From when")},
            first=("joined", "left"),
        )
    )


def _covers(of: InCrew, on: str) -> bool:
    return of.from_on <= on and (not of.until_on or on <= of.until_on)
