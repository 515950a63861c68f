"""What is entered in stores: a lot received, a shelf named, and whatever happens to a lot. Plain forms."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from flask import abort, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.stores import LotsWanted, lots_in_stores, shelf_with
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import (
    area_choices,
    area_first,
    area_there,
    areas_for,
    hide,
    instruments_there,
    people_there,
    shelves_there,
)
from repairlog.words import _

routes = room("stores", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form about a lot. `what`: its name in the address."""

    what: str


FORMS = {
    "lot_moved": Form(what="move"),
    "lot_counted": Form(what="count"),
    "lot_used": Form(what="use"),
    "lot_quarantined": Form(what="quarantine"),
    "lot_released": Form(what="release"),
    "lot_scrapped": Form(what="scrap"),
}
"""By kind of entry, the form of what happens to a lot."""


@routes.route("/stores/receive", methods=["GET", "POST"])
def receive() -> ResponseReturnValue:
    """Receive a lot in one of the areas in which the asker may."""
    return _opening("lot_received", _("Receive a lot"), _("Save the lot"))


@routes.route("/stores/shelf", methods=["GET", "POST"])
def shelf() -> ResponseReturnValue:
    """Name a shelf, or a truck, where material lies."""
    return _opening("shelf_made", _("Name a shelf or truck"), _("Save the shelf"))


@routes.route("/stores/lots/<uuid:lot>/<what>", methods=["GET", "POST"])
def page(lot: UUID, what: str) -> ResponseReturnValue:
    """Enter what happens to that lot."""
    kind = next((kind for kind, form in FORMS.items() if form.what == what), None)
    if kind is None:
        abort(404)
    with store().reading() as tx:
        found = next(iter(lots_in_stores(asker().scope, tx, where=LotsWanted(lot=lot))), None)
        there = area_there(tx, found.area if found else None)
        choices = {"did.person": people_there(tx, there), "shelf": shelves_there(tx, there)}
    hide(found)
    part = Part(
        name="stores",
        kind=kind,
        said={"lot": str(lot)},
        choices=choices,
        labels={"happened": _("When")},
    )
    return entering(
        Page(
            template="stores/form.html",
            parts=[part],
            areas=there,
            then=lambda receipts: url_for("lots.one", lot=lot, saved=receipts[0].id),
            around={"lot": found, "title": _titles()[kind], "save": _("Save")},
        )
    )


@routes.route("/stores/shelves/<uuid:shelf>/temperature", methods=["GET", "POST"])
def temperature(shelf: UUID) -> ResponseReturnValue:
    """Log how warm it is where that material lies."""
    with store().reading() as tx:
        found = shelf_with(asker().scope, tx, shelf=shelf)
        there = area_there(tx, found.area if found else None)
        choices = {"did.person": people_there(tx, there), "instrument_used": instruments_there(tx, there)}
    hide(found)
    return enters(
        Says(
            kind="temperature_logged",
            heading=_("Log the temperature"),
            save=_("Save the temperature"),
            called=found.name if found else "",
            back=url_for("shelves.one", shelf=shelf),
            then=url_for("shelves.one", shelf=shelf),
            opens_to=bool(there) and asker().may("temperature_logged", area=there[0].id),
            areas=there,
            said={"subject": str(shelf)},
            choices=choices,
            labels={"happened": _("When it was read")},
            first=("lowest", "highest"),
        )
    )


def _opening(kind: str, title: str, save: str) -> ResponseReturnValue:
    with store().reading() as tx:
        here = areas_for(tx, kind)
        people = people_there(tx, here)
    part = Part(
        name="stores",
        kind=kind,
        choices={"area": area_choices(here), "did.person": people},
        labels={"happened": _("When")},
        begins=area_first(here),
    )
    return entering(
        Page(
            template="stores/form.html",
            parts=[part],
            areas=here,
            then=lambda receipts: _then(kind, receipts[0].id),
            around={"lot": None, "title": title, "save": save},
        )
    )


def _then(kind: str, id: UUID) -> str:
    if kind == "lot_received":
        return url_for("lots.one", lot=id, saved=id)
    return url_for("shelves.one", shelf=id, saved=id)


def _titles() -> dict[str, str]:
    return {
        "lot_moved": _("Move material of this lot"),
        "lot_counted": _("Count this lot"),
        "lot_used": _("Use it otherwise than in a repair"),
        "lot_quarantined": _("Quarantine this lot"),
        "lot_released": _("Release it from quarantine"),
        "lot_scrapped": _("Scrap material of this lot"),
    }
