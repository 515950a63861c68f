"""The list of people: who they are, their crew and company, what they may do, and what they are qualified for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.access import Membership
from repairlog.records.beside.sign_ins import sign_ins_of
from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.people import memberships
from repairlog.records.queries.people_listed import (
    ListedPerson,
    WantedPeople,
    crews_with,
    people_listed,
    qualifications_of,
)
from repairlog.records.queries.settings import areas
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.trade.qualified_on import TaskStanding, tasks_on
from repairlog.web.admin.people_filter import asked_of_people, wanted
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.listing import Column, Listing, Way, by_name, listed
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import people as words
from repairlog.words.days import day

routes = room("people", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A person as the list tells of them, on the day that is looked at."""

    person: ListedPerson
    crews: Sequence[str]
    roles: Sequence[str]
    tasks: Sequence[TaskStanding]
    signs_in: str


@routes.get("/people")
def page() -> ResponseReturnValue:
    """The people that fit the filter in the address, by name; with `as=csv` all as a file."""
    demand_role(*KEEP_THE_BOOKS)
    scope = asker().scope
    with store().reading() as tx:
        within = areas(scope, tx)
        of = asked_of_people(within, crews_in(scope, tx))
        asks = wanted(of, today=date.fromisoformat(asker().on))

        def rows(tx: Tx, edge: tuple[str, UUID] | None, *, most: int) -> Sequence[Row]:
            return _rows(tx, people_listed(scope, tx, asked=asks, after=edge, most=most), asks, within)

        ways = [(_("Crews"), url_for("crews.page"))]
        if asker().may("lets_in", area=None):
            ways.append((_("Sign-ins"), url_for("every_sign_in.page")))
        return listed(
            tx,
            Listing(
                title=_("People"),
                name=_("people"),
                of=of,
                columns=_columns(asks.on),
                shown=_shown(),
                rows=rows,
                order=by_name(lambda row: (row.person.name, row.person.id)),
                does=[(_("Add a person"), url_for("person_said.new"))]
                if asker().may("person_added", area=None)
                else [],
                ways=ways,
                counted=words.number_of,
                as_of=asks.on.isoformat(),
                about=_("Who may do what, and who is qualified for what."),
                nothing_fits=_("Nobody on the books fits this."),
                nothing_yet=_("Nobody is on the books that you may see."),
                empty=_("Everybody who works on leaks will stand here with their roles, crews and qualifications."),
            ),
        )


def _shown() -> Sequence[Column]:
    def who(row: Row) -> Way:
        person = row.person
        last = _("last day {day}").format(day=day(person.left_on)) if person.left_on else ""
        beside = ", ".join(filter(None, (person.company, person.staff_number, last)))
        return Way(text=person.name, address=url_for("person.page", person=person.id), small=beside)

    def qualified(row: Row) -> Any:
        wants = [
            (words.task_told(each), "soon" if each.standing == "ends_soon" else "wants")
            for each in row.tasks
            if each.standing != "valid"
        ]
        told = words.counted(row.tasks)
        return (told, wants) if told or wants else None

    return (
        Column(head=_("Name"), cell=who, draw="way", kind="where"),
        Column(head=_("Crew"), cell=lambda row: ", ".join(row.crews), kind="small"),
        Column(head=_("Roles"), cell=lambda row: ", ".join(row.roles)),
        Column(head=_("Qualifications"), cell=qualified, draw="standings"),
        Column(head=_("Signs in"), cell=lambda row: row.signs_in, kind="small", phone=_("signs in as")),
    )


def _rows(tx: Tx, people: Sequence[ListedPerson], wanted: WantedPeople, within: Sequence[Area]) -> list[Row]:
    scope, ids, on = asker().scope, [each.id for each in people], wanted.on.isoformat()
    held, qualified = memberships(scope, tx, ids=ids), qualifications_of(scope, tx, ids=ids)
    crews: defaultdict[UUID, list[str]] = defaultdict(list)
    for each in crews_with(scope, tx, ids=ids):
        if each.from_on <= on and (not each.until_on or on <= each.until_on):
            crews[each.person].append(each.name)
    names, come_in = {area.id: area.name for area in within}, sign_ins_of(tx, ids)
    return [
        Row(
            person=each,
            crews=crews[each.id],
            roles=words.roles_told(_on(held.get(each.id, ()), on), areas=names, every=len(within)),
            tasks=tasks_on(qualified[each.id], on=on, soon_until=wanted.soon_until.isoformat()),
            signs_in=come_in[each.id].name if each.id in come_in and not come_in[each.id].closed_at else "",
        )
        for each in people
    ]


def _on(held: Iterable[Membership], on: str) -> list[Membership]:
    return [each for each in held if each.covers(area=each.area, on=on)]


def _columns(on: date) -> Mapping[str, Callable[[Row], str | int]]:
    return {
        _("Name"): lambda row: row.person.name,
        _("Company"): lambda row: row.person.company,
        _("Staff number"): lambda row: row.person.staff_number,
        _("Crews"): lambda row: "; ".join(row.crews),
        _("Roles"): lambda row: "; ".join(row.roles),
        _("Qualified for"): lambda row: "; ".join(
            words.task_told(each) for each in row.tasks if each.standing in ("valid", "ends_soon")
        ),
        _("Ends soon, lapsed or ended"): lambda row: "; ".join(
            words.task_told(each) for each in row.tasks if each.standing != "valid"
        ),
        _("Last day"): lambda row: row.person.left_on,
        _("Signs in as"): lambda row: row.signs_in,
        _("As of"): lambda _row: on.isoformat(),
    }
