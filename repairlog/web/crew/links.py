"""A link from one thing to another: a leak, a call, a dig, a place. The other is found by its number or its address."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from uuid import UUID

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.calls import WantedCalls, calls
from repairlog.records.queries.digs import digs_of
from repairlog.records.queries.digs_listed import WantedDigs, digs_listed
from repairlog.records.queries.leaks import Wanted, leak_with_id, leaks
from repairlog.records.queries.named import named
from repairlog.records.queries.places_listed import A_STREET, WantedPlaces, places_listed
from repairlog.records.queries.settings import SubjectRow, subjects
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Tx
from repairlog.trade.links import BETWEEN, LINKED, others
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.of_any import page_of_any
from repairlog.web.frame.there import area_there, people_to_choose
from repairlog.words import _, codes
from repairlog.words import links as words
from repairlog.words import places as place_words
from repairlog.words.addresses import address_of_leak

OFFERED = 20
"""Of each kind at the most; others are found by more of their number or address."""

routes = room("links", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """One thing to link to. `beside`: what tells it from others of its kind."""

    id: UUID
    called: str
    beside: str


@routes.get("/linked/<uuid:subject>")
def choose(subject: UUID) -> ResponseReturnValue:
    """Choose what that thing is linked to: by a number, its own or another's, or by words of its address."""
    part = " ".join(request.args.get("text", "").split())
    with store().reading() as tx:
        row = _row(tx, subject) or abort(404)
        if not asker().may("linked", area=row.area):
            abort(403)
        asked = part or _street_of(tx, row)
        found = [each for kind in others(row.kind) for each in _FINDS[kind](tx, asked)] if asked else []
        called, back = _called(tx, row), page_of_any(tx, kind=row.kind, subject=subject)
    leak = request.args.get("leak")
    offered = [
        (url_for("links.page", subject=subject, other=each.id, leak=leak), each)
        for each in {each.id: each for each in found}.values()
        if each.id != subject
    ]
    return render_template("crew/link_to.html", called=called, back=back, offered=offered, part=part, leak=leak)


@routes.route("/linked/<uuid:subject>/<uuid:other>", methods=["GET", "POST"])
def page(subject: UUID, *, other: UUID) -> ResponseReturnValue:
    """Link that thing to the other one."""
    with store().reading() as tx:
        row, to = _row(tx, subject), _row(tx, other)
        ways = BETWEEN.get((row.kind, to.kind), ()) if row and to and subject != other else ()
        if request.method == "GET" and not ways:
            abort(404)
        here = area_there(tx, row.area) if row else []
        people = people_to_choose(tx)
        called, that = (_called(tx, each) if each else "" for each in (row, to))
        back = page_of_any(tx, kind=row.kind, subject=subject) if row else ""
    return enters(
        Says(
            kind="linked",
            heading=_("Link to {what}").format(what=that),
            save=_("Save the link"),
            called=called,
            back=back,
            then=back.partition("#")[0],
            opens_to=bool(row and here and asker().may("linked", area=row.area)),
            areas=here,
            said={"subject": str(subject), "to_subject": str(other)},
            choices={"how": [(way, codes.word(way)) for way in ways], "did.person": people},
            labels={"happened": _("When this was found out")},
            first=("reason",),
            hint=_("Both pages show it. A link ends nothing and moves no day by which something is owed."),
            caution=True,
        )
    )


def _row(tx: Tx, id: UUID) -> SubjectRow | None:
    return next((each for each in subjects(asker().scope, tx, ids=[id]) if each.kind in (*LINKED, "place")), None)


def _called(tx: Tx, row: SubjectRow) -> str:
    found = named(asker().scope, tx, ids=[row.id]).get(row.id)
    return words.called(found) if found else ""


def _street_of(tx: Tx, row: SubjectRow) -> str:
    """The street of a leak: what lies in it is offered before anybody types."""
    leak = leak_with_id(asker().scope, tx, leak=row.id) if row.kind == "leak" else None
    return f"{leak.street} {leak.town}".strip() if leak else ""


def _leaks(tx: Tx, part: str) -> Iterator[Offered]:
    streets = tuple(streets_named(asker().scope, tx, part=part))
    for where in (Wanted(number=part), Wanted(streets=streets)):
        for row in leaks(asker().scope, tx, where=where, beyond=None, most=OFFERED):
            yield Offered(id=row.id, called=row.number, beside=address_of_leak(row))


def _calls(tx: Tx, part: str) -> Iterator[Offered]:
    streets = tuple(streets_named(asker().scope, tx, part=part))
    for wanted in (WantedCalls(number=part), WantedCalls(streets=streets)):
        for row in calls(asker().scope, tx, wanted=wanted, beyond=None, most=OFFERED):
            called = _("Call {number}").format(number=row.number)
            yield Offered(id=row.id, called=called, beside=address_of_leak(row))


def _digs(tx: Tx, part: str) -> Iterator[Offered]:
    for row in digs_listed(asker().scope, tx, digging=WantedDigs(number=part), beyond=None, most=OFFERED):
        yield Offered(id=row.id, called=words.dig(row.opened_on, ticket=row.ticket), beside=", ".join(row.leaks))
    there = list(_leaks(tx, part))
    for dig in digs_of(asker().scope, tx, leaks=[each.id for each in there])[:OFFERED]:
        yield Offered(id=dig.id, called=words.dig(dig.opened_on, ticket=dig.ticket), beside=dig.number)


def _places(tx: Tx, part: str) -> Iterator[Offered]:
    found = places_listed(asker().scope, tx, asked=WantedPlaces(text=part), after=None, most=OFFERED)
    for row in (each for each in found if each.what != A_STREET):
        yield Offered(id=row.id, called=place_words.name(row), beside=place_words.what(row.what))


_FINDS: Mapping[str, Callable[[Tx, str], Iterator[Offered]]] = {
    "leak": _leaks,
    "call": _calls,
    "dig": _digs,
    "place": _places,
}
