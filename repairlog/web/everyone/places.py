"""Streets and places: the list of both, and one of them with its leaks, its calls, its digs and its own story."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask import abort, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
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
from repairlog.web.frame.as_csv import AT_ONCE, as_csv, csv_address, csv_wanted
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.leak_filter import filtered
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.frame.of_any import linked_here, way_to_link
from repairlog.web.frame.there import area_there
from repairlog.words import _
from repairlog.words import calls as call_words
from repairlog.words import leaks as leak_words
from repairlog.words import places as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word
from repairlog.words.days import day

A_PAGE = 50
"""Streets and places on a page."""

SHOWN = 30
"""Leaks and calls that the page of one of them shows at the most, the newest."""

NAMES = ("text", "what", "area")
"""The filters, as the address names them."""

routes = room("places", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """`typed`: what stands in each field of the filter. `wrong`: by field, the code of what is wrong with it."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]
    wanted: WantedPlaces


@routes.get("/places")
def page() -> ResponseReturnValue:
    """The streets and places that fit the filter in the address, by name; with `as=csv` all as a file."""
    scope, after = asker().scope, _edge(request.args.get("older", ""))
    with store().reading() as tx:
        within = areas(scope, tx)
        of = _asked(request.args, within)
        to_file = csv_wanted() and not of.wrong
        found = [] if to_file else places_listed(scope, tx, asked=of.wanted, after=after, most=A_PAGE + 1)
    if to_file:
        return _file(of.wanted, within)
    rows, at = found[:A_PAGE], url_for("places.page")
    more = len(found) > A_PAGE
    return render_template(
        "everyone/places.html",
        rows=rows,
        names={area.id: area.name for area in within},
        count=words.shown(len(rows), more=more),
        older=filtered(at, of.typed, older=f"{rows[-1].id}.{rows[-1].key}") if more else "",
        first=filtered(at, of.typed) if after else "",
        file=csv_address(without=of.wrong),
        typed=of.typed,
        wrong={name: words.filter_wrong(code, got=of.typed[name]) for name, code in of.wrong.items()},
        choices={
            "what": {code: words.what(code) for code in words.WHAT},
            "area": {area.code: area.name for area in within},
        },
        words=words,
        at=address_of,
        day=day,
        may_add=any(asker().may("place_added", area=area.id) for area in within),
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
        "leak_words": leak_words,
        "call_words": call_words,
        "address": address_of_leak,
        "word": word,
        "day": day,
    }


def _street_of(place: ListedPlace) -> str:
    """Where the streets are looked up by the name that the place gives; empty where it gives none."""
    text = f"{place.street} {place.town}".strip()
    return url_for("places.page", text=text, what=A_STREET) if place.street else ""


def _asked(arguments: Mapping[str, str], within: Sequence[Area]) -> Asked:
    typed = {name: text for name in NAMES if (text := " ".join(arguments.get(name, "").split()))}
    area = next((area.id for area in within if area.code.casefold() == typed.get("area", "").casefold()), None)
    found = {"area": "no_such_area"} if area is None else {}
    found |= {"what": "not_one_of_these"} if typed.get("what", "") not in words.WHAT else {}
    wrong = {name: code for name, code in found.items() if name in typed}
    what = "" if "what" in wrong else typed.get("what", "")
    wanted = WantedPlaces(text=typed.get("text", ""), what=what, area=area)
    return Asked(typed=typed, wrong=wrong, wanted=wanted)


def _edge(text: str) -> tuple[str, UUID] | None:
    """Where the page before ended, `ID.KEY`; None for any other text."""
    id_text, _dot, key = text.partition(".")
    id = as_id(id_text)
    return (key, id) if id else None


def _file(wanted: WantedPlaces, within: Sequence[Area]) -> ResponseReturnValue:
    def after(tx: Tx, last: ListedPlace | None) -> Sequence[ListedPlace]:
        edge = (last.key, last.id) if last else None
        return places_listed(asker().scope, tx, asked=wanted, after=edge, most=AT_ONCE)

    of = [area for area in within if wanted.area in (None, area.id)]
    return as_csv(name=_("streets and places"), areas=of, columns=words.columns(within), after=after)
