"""Shelves and trucks where material lies: a list of them, and one with what lies there and what was said of it."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask import render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.settings import areas
from repairlog.records.queries.stores import ListedShelf, LotsWanted, lots_in_stores, shelf_with, shelves_listed
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.filters import Asked
from repairlog.web.frame.listing import Listing, by_name, listed
from repairlog.web.frame.moved_away import not_here, way_to_move
from repairlog.web.frame.there import area_there
from repairlog.words import _
from repairlog.words import stores as words
from repairlog.words.codes import word

MOST_LOTS = 100
"""Lots that are shown where they lie."""

routes = room("shelves", __name__)


@routes.get("/stores/shelves")
def page() -> ResponseReturnValue:
    """The shelves and trucks of the asker's areas, by name; with `as=csv` all as a file."""
    with store().reading() as tx:
        within = areas(asker().scope, tx)
        names = {area.id: area.name for area in within}

        def rows(tx: Tx, edge: tuple[str, UUID] | None, *, most: int) -> Sequence[ListedShelf]:
            return shelves_listed(asker().scope, tx, after=edge, most=most)

        return listed(
            tx,
            Listing(
                title=_("Shelves and trucks"),
                name=_("shelves"),
                of=Asked(within=within),
                columns={
                    _("Name"): lambda shelf: shelf.name,
                    _("What it is"): lambda shelf: word(shelf.what),
                    _("Lots that lie there"): lambda shelf: shelf.lots,
                    _("Area"): lambda shelf: names.get(shelf.area, ""),
                },
                leads=lambda shelf: url_for("shelves.one", shelf=shelf.id),
                rows=rows,
                order=by_name(lambda shelf: (shelf.name, shelf.id)),
                about=_("Where material lies: a lot is brought there as a whole or in part."),
                empty=_("A shelf or truck is named on the page of the stores."),
                ways=[(_("Stores"), url_for("lots.page"))],
            ),
        )


@routes.get("/stores/shelves/<uuid:shelf>")
def one(shelf: UUID) -> ResponseReturnValue:
    """What lies there and what was said of it; 404 where it is not in scope, or there is none."""
    scope = asker().scope
    with store().reading() as tx:
        found = shelf_with(scope, tx, shelf=shelf)
        if found is None:
            not_here(tx, shelf)
        told = told_of(tx, shelf)
        lots = lots_in_stores(scope, tx, where=LotsWanted(area=found.area, on_shelf=shelf), most=MOST_LOTS + 1)
        area = next(iter(area_there(tx, found.area)), None)
    ways = [
        (name, address)
        for kind, name, address in (
            ("temperature_logged", _("Log the temperature"), url_for("stores.temperature", shelf=shelf)),
        )
        if asker().may(kind, area=found.area)
    ]
    ways += way_to_move("shelf", shelf, area=found.area)
    return render_template(
        "stores/shelf.html",
        shelf=found,
        area=area,
        of=told,
        lots=lots[:MOST_LOTS],
        more=url_for("lots.page", shelf=found.name) if len(lots) > MOST_LOTS else "",
        ways=ways,
        on=asker().on,
        words=words,
        word=word,
    )
