"""What is said of a place: that it is there, and that it is retired."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.places_listed import place_listed
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.there import area_there, areas_to_choose, hide, people_there, people_to_choose
from repairlog.words import _
from repairlog.words import places as words

routes = room("place_said", __name__)


@routes.route("/places/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Add a place in one of the areas in which the asker may."""
    with store().reading() as tx:
        here, offered = areas_to_choose(tx)
        people = people_to_choose(tx)
    return enters(
        Says(
            kind="place_added",
            heading=_("Add a place"),
            save=_("Add the place"),
            called="",
            back=url_for("places.page"),
            then="/places/{id}",
            opens_to=any(asker().may("place_added", area=area.id) for area in here),
            areas=here,
            choices={"area": offered, "did.person": people},
            labels={"happened": _("When it was put on the books")},
            first=("called", "house_number", "street", "town", "outside_numbers"),
            hint=_("A street needs no entry: it is on the list as soon as a leak or a call names it."),
        )
    )


@routes.route("/places/<uuid:place>/retire", methods=["GET", "POST"])
def retire(place: UUID) -> ResponseReturnValue:
    """Say that that place is retired."""
    with store().reading() as tx:
        found = place_listed(asker().scope, tx, id=place)
        here = area_there(tx, found.area if found else None)
        people = people_there(tx, here)
    hide(found)
    return enters(
        Says(
            kind="place_retired",
            heading=_("Retire a place"),
            save=_("Retire it"),
            called=words.name(found) if found else "",
            back=url_for("places.one", place=place),
            then=url_for("places.one", place=place),
            opens_to=bool(here) and asker().may("place_retired", area=here[0].id),
            areas=here,
            said={"subject": str(place)},
            choices={"did.person": people},
            labels={"happened": _("When it was retired")},
            first=("reason",),
            hint=_("It is offered no more where a source is entered. What happened there stays as it is."),
        )
    )
