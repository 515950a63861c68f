"""A call is taken: one page, while the caller speaks; what is known near the address stands beside it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.web.dispatch.near import Near, near
from repairlog.web.frame.asking import room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import area_choices, area_first, areas_for, people_there
from repairlog.words import _
from repairlog.words import calls as words
from repairlog.words.addresses import address_of_leak
from repairlog.words.codes import word

routes = room("new_call", __name__)


@routes.route("/calls/new", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """Take a call in one of the areas in which the asker may."""
    with store().reading() as tx:
        here = areas_for(tx, "call_received")
        people = people_there(tx, here)
    call = Part(
        name="call",
        kind="call_received",
        choices={"area": area_choices(here), "did.person": people},
        labels={"happened": _("When it was received")},
        begins=area_first(here),
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
