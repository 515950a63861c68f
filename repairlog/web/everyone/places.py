"""Streets and places: the list of both, and one of them with its leaks, its calls, its digs and its own story."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.calls import WantedCalls, calls, calls_of_leaks
from repairlog.records.queries.digs import digs_of
from repairlog.records.queries.leaks import Wanted, leaks
from repairlog.records.queries.made_one import sameness
from repairlog.records.queries.places_listed import (
    A_STREET,
    ListedPlace,
    WantedPlaces,
    place_listed,
    places_as_one,
    places_listed,
    street_listed,
    streets_as_one,
)
from repairlog.records.queries.settings import areas
from repairlog.records.queries.streets import streets_made_one
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.filters import Asked, Box, asked, chosen, of_area
from repairlog.web.frame.leak_columns import leak_columns
from repairlog.web.frame.listing import Column, Listing, Way, by_name, drawn, listed
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.frame.of_any import linked_here, way_to_link
from repairlog.web.frame.there import area_there
from repairlog.words import _
from repairlog.words import calls as call_words
from repairlog.words import places as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word
from repairlog.words.days import day

SHOWN = 30
"""Leaks and calls that the page of one of them shows at the most, the newest."""

routes = room("places", __name__)


@routes.get("/places")
def page() -> ResponseReturnValue:
    """The streets and places that fit the filter in the address, by name; with `as=csv` all as a file."""
    scope = asker().scope
    with store().reading() as tx:
        within = areas(scope, tx)
        of = _asked(within)
        wanted = WantedPlaces(text=of.text("text"), what=of.text("what"), area=of.area)

        def rows(tx: Tx, edge: tuple[str, UUID] | None, *, most: int) -> Sequence[ListedPlace]:
            return places_listed(scope, tx, asked=wanted, after=edge, most=most)

        may_add = any(asker().may("place_added", area=area.id) for area in within)
        return listed(
            tx,
            Listing(
                title=_("Places"),
                name=_("streets and places"),
                of=of,
                columns=words.columns(within),
                shown=_shown(within),
                rows=rows,
                order=by_name(lambda row: (row.key, row.id)),
                looks=lambda row: "past" if row.retired_on else "",
                does=[(_("Add a place"), url_for("place_said.new"))] if may_add else [],
                counted=words.number_of,
                about=_("Streets, services, mains and meter sets, with what happened there."),
                nothing_fits=_("No street or place fits this."),
                nothing_yet=_("No street or place is in the book that you may see."),
                empty=_(
                    "Every street that a leak or a call names will stand here by itself, and every service, main or"
                    " meter set that is added, each with what happened there."
                ),
            ),
        )


@routes.get("/places/<uuid:place>")
def one(place: UUID) -> ResponseReturnValue:
    """Everything about that place; 404 where it is not in scope, or there is none."""
    scope = asker().scope
    with store().reading() as tx:
        found = place_listed(scope, tx, id=place)
        if found is None:
            not_here(tx, place)
        told, same = told_of(tx, place), sameness(scope, tx, id=place)
        links = linked_here(tx, *places_as_one(scope, tx, id=place))
        where = Wanted(places=tuple(places_as_one(scope, tx, id=place)))
        there = leaks(scope, tx, where=where, beyond=None, most=SHOWN + 1)
        around = _around(tx, found, there=there)
        around["calls"] = calls_of_leaks(scope, tx, leaks=[leak.id for leak in there])[:SHOWN]
        area = next(iter(area_there(tx, found.area)), None)
    ways = []
    if asker().may("place_retired", area=found.area) and not found.retired_on:
        ways.append((_("Retire it"), url_for("place_said.retire", place=place)))
    if asker().may("made_one", area=found.area):
        ways.append((_("The same as another"), url_for("made_one.choose", subject=place)))
    ways += way_to_link("place", place, area=found.area)
    ways += way_to_move("place", place, area=found.area)
    return render_template(
        "everyone/place.html",
        of=told,
        same=same,
        links=links,
        ways=ways,
        area=area,
        street_page=_street_of(found),
        **around,
    )


@routes.get("/places/streets/<uuid:street>")
def street(street: UUID) -> ResponseReturnValue:
    """A street with what happened there, under the name that is kept; 404 where nothing of it is in scope."""
    scope = asker().scope
    with store().reading() as tx:
        found = street_listed(scope, tx, id=street)
        if found is None:
            abort(404)
        ids = tuple(streets_as_one(scope, tx, id=found.id))
        there = leaks(scope, tx, where=Wanted(streets=ids), beyond=None, most=SHOWN + 1)
        around = _around(tx, found, there=there)
        around["calls"] = calls(scope, tx, wanted=WantedCalls(streets=ids), beyond=None, most=SHOWN)
        within = areas(scope, tx)
        same = streets_made_one(scope, tx, ids=ids)
    may = any(asker().may("streets_made_one", area=area.id) for area in within)
    ways = [(_("The same as another"), url_for("made_one.choose_street", street=found.id))] if may else []
    every = url_for("leaks.page", street=f"{found.street} {found.town}".strip())
    return render_template("everyone/street.html", same=same, ways=ways, every=every, **around)


def address_of(row: ListedPlace) -> str:
    """The address of the page of that street or place."""
    return url_for("places.street", street=row.id) if row.what == A_STREET else url_for("places.one", place=row.id)


def _around(tx: Tx, found: ListedPlace, *, there: Sequence[Any]) -> dict[str, Any]:
    """What both pages draw of leaks and digs."""
    shown = there[:SHOWN]
    return {
        "place": found,
        "leaks": shown,
        "more": len(there) > SHOWN,
        "digs": digs_of(asker().scope, tx, leaks=[leak.id for leak in shown]),
        "words": words,
        "leak_columns": drawn(leak_columns()),
        "call_words": call_words,
        "address": address_of_leak,
        "word": word,
        "day": day,
    }


def _street_of(place: ListedPlace) -> str:
    """Where the streets are looked up by the name that the place gives; empty where it gives none."""
    text = f"{place.street} {place.town}".strip()
    return url_for("places.page", text=text, what=A_STREET) if place.street else ""


def _asked(within: Sequence[Area]) -> Asked:
    boxes = [
        Box(name="text", label=_("Name or address"), hint=_("or a number")),
        chosen("what", _("What it is"), choices={code: words.what(code) for code in words.WHAT}),
        *of_area(within),
    ]
    return asked(boxes, within=within)


def _shown(within: Sequence[Area]) -> Sequence[Column]:
    names = {area.id: area.name for area in within} if len(within) > 1 else {}

    def where(row: ListedPlace) -> Way:
        return Way(text=words.name(row), address=address_of(row), small=words.address(row) if row.called else "")

    def what(row: ListedPlace) -> str:
        retired = words.retired(row.retired_on) if row.retired_on else ""
        return ", ".join(filter(None, (words.what(row.what), names.get(row.area, "") if row.area else "", retired)))

    return (
        Column(head=_("Name"), cell=where, draw="way", kind="where"),
        Column(head=_("What it is"), cell=what),
        Column(head=_("Last reported"), cell=lambda row: row.last_on and day(row.last_on), kind=("small", "day")),
        Column(head=_("Leaks"), cell=lambda row: row.leaks, kind=("number", "small")),
        Column(head=_("Open"), cell=lambda row: row.open, kind=("number", "small")),
        Column(head=_("Calls"), cell=lambda row: row.calls, kind=("number", "small")),
        Column(head=_("Digs"), cell=lambda row: row.digs, kind=("number", "small")),
    )
