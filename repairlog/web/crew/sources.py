"""A source of a leak: what leaks, and the pipe it sits on."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import request, url_for
from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.queries.places import places_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import Where, where_of
from repairlog.words import _
from repairlog.words.places import place

routes = room("sources", __name__)


@routes.route("/leaks/<uuid:leak>/source", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Add a source to that leak; `?repair=` says that a repair is to be logged then."""
    where = where_of(leak)
    places = places_near(where)
    source = Part(
        name="source",
        kind="source_added",
        said={"leak": str(leak)},
        choices={"did.person": where.people, "place": places},
        without=() if places else ("place",),
        labels={"happened": _("When it was found")},
    )
    then: dict[str, Any] = {"then": lambda _receipts: url_for("repairs.page", leak=leak)}
    return on_leak(
        where, leak, template="crew/source.html", parts=[source], **(then if "repair" in request.args else {})
    )


OFFERED = 300
"""Places that the page offers at the most; who keeps more of them names the place in words."""


def places_near(where: Where) -> Choices:
    """The places near by that a source may be at: those in the leak's street, else those of its area."""
    if where.leak is None or not where.areas:
        return ()
    with store().reading() as tx:
        for part in dict.fromkeys((where.leak.street, "")):
            found = places_of(asker().scope, tx, area=where.areas[0].id, part=part, most=OFFERED)
            if standing := [each for each in found if not each.retired_on]:
                return [(str(each.id), place(each)) for each in standing]
    return ()
