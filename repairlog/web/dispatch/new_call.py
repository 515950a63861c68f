"""A call is taken: one page, while the caller speaks; what is known near the address stands beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.records.queries.people import people_of
from repairlog.records.queries.settings import areas
from repairlog.web.dispatch.near import Near, near
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.words import _
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

routes = room("new_call", __name__)


@routes.route("/calls/new", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """Take a call in one of the areas in which the asker may."""
    who = asker()
    with store().reading() as tx:
        here = [area for area in areas(who.scope, tx) if who.may("call_received", area=area.id)]
        people = {(row.id, row.name) for area in here for row in people_of(who.scope, tx, area=area.id)}
    call = Part(
        name="call",
        kind="call_received",
        choices={
            "area": [(str(area.id), area.name) for area in here],
            "did.person": [(str(id), name) for id, name in sorted(people, key=lambda each: each[1])],
        },
        labels={"happened": _("When it was received")},
        begins={"area": str(here[0].id)} if len(here) == 1 else {},
    )
    around: dict[str, Any] = {"near": Near(), "address": address_of_leak, "words": words, "word": word}
    return entering(
        Page(
            template="dispatch/new_call.html",
            parts=[call],
            areas=here,
            then=lambda receipts: url_for("call.page", call=receipts[0].id, saved=receipts[0].id),
            around=around,
            ready=lambda forms, _told: around.update(near=_near(forms)),
        )
    )


def _near(forms: Mapping[str, Form]) -> Near:
    form = forms["call"]
    with store().reading() as tx:
        return near(tx, street=form["street"].data or "", town=form["town"].data or "")
