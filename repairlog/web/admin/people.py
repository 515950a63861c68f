"""The list of people: who they are, their crew and company, what they may do, and what they are qualified for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlencode
from uuid import UUID

from flask import render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.access import Membership
from repairlog.entries.ids import as_id
from repairlog.entries.operator import ROLES
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
from repairlog.web.admin.people_filter import QUALIFIED, SOON, asked
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, demand_role, room, store
from repairlog.web.frame.pages import KEEP_THE_BOOKS
from repairlog.words import _
from repairlog.words import people as words
from repairlog.words.codes import word
from repairlog.words.days import day

A_PAGE = 50
"""People on a page."""

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
    scope, today = asker().scope, date.fromisoformat(asker().on)
    after = _edge(request.args.get("older", ""))
    with store().reading() as tx:
        within, crews = areas(scope, tx), crews_in(scope, tx)
        of = asked(request.args, areas=within, crews=[crew.id for crew in crews], today=today)
        if csv_wanted() and not of.wrong:
            return _file(of.wanted, within)
        found = people_listed(scope, tx, asked=of.wanted, after=after, most=A_PAGE + 1)
        rows = _rows(tx, found[:A_PAGE], of.wanted, within)
    return render_template(
        "admin/people.html",
        rows=rows,
        count=words.shown(len(rows), more=len(found) > A_PAGE),
        older=_address({**of.typed, "older": _edge_text(found[A_PAGE - 1])}) if len(found) > A_PAGE else "",
        first=_address(of.typed) if after else "",
        file=csv_address(without=of.wrong),
        typed=of.typed,
        wrong={name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
        areas=within,
        choices=_choices([(str(crew.id), crew.name) for crew in crews], within),
        words=words,
        day=day,
        on=day(of.wanted.on.isoformat()),
        may_add=asker().may("person_added", area=None),
        may_let_in=asker().may("lets_in", area=None),
    )


def _choices(crews: Iterable[tuple[str, str]], within: Sequence[Area]) -> dict[str, dict[str, str]]:
    return {
        "area": {area.code: area.name for area in within},
        "role": {role: word(role) for role in ROLES},
        "crew": dict(crews),
        "qualified": {code: words.standing_word(code) for code in QUALIFIED},
        "soon": {days: _("{days} days").format(days=days) for days in SOON},
        "left": {"yes": _("who left")},
    }


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


def _file(wanted: WantedPeople, within: Sequence[Area]) -> ResponseReturnValue:
    def after(tx: Tx, last: Row | None) -> Sequence[Row]:
        edge = (last.person.name, last.person.id) if last else None
        found = people_listed(asker().scope, tx, asked=wanted, after=edge, most=AT_ONCE)
        return _rows(tx, found, wanted, within)

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("people"), areas=of, columns=_columns(wanted.on), after=after)


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


def _edge_text(row: ListedPerson) -> str:
    return f"{row.id}.{row.name}"


def _edge(text: str) -> tuple[str, UUID] | None:
    """Where the page before ended, as `_edge_text` writes it; None for any other text."""
    id_text, dot, name = text.partition(".")
    id = as_id(id_text)
    return (name, id) if dot and id else None


def _address(arguments: Mapping[str, str]) -> str:
    return f"{url_for('people.page')}?{urlencode(arguments)}".removesuffix("?")
