"""A call is found to be a leak of the operator's: the leak and the call's outcome are entered together."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.records.story import story_of_call
from repairlog.web.dispatch.where import OfCall, of_call
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.where import sheet_of
from repairlog.words import _
from repairlog.words.addresses import address_of_leak

routes = room("opens_leak", __name__)

ADDRESS = ("house_number", "street", "cross_street", "town", "postal_code", "location")
NOT_ASKED = (
    "number",
    "reporter_name",
    "reporter_address",
    "outside_numbers",
    "discovered",
    "county",
    "map_reference",
    "coordinates",
    "on_federal_land",
)
"""Of a leak, what stands on the call already or may be added on its sheet."""


@routes.route("/calls/<uuid:call>/leak", methods=["GET", "POST"])
def page(call: UUID) -> ResponseReturnValue:
    """Open a leak from that call."""
    where = of_call(call)
    leak = Part(
        name="leak",
        kind="leak_opened",
        said={"from_call": str(call), **({"area": str(where.areas[0].id)} if where.areas else {})},
        choices={"did.person": where.people, "area": []},
        without=NOT_ASKED,
        labels={"happened": _("When it was reported")},
        begins=_begins(where),
    )
    outcome = Part(
        name="outcome",
        kind="call_outcome",
        said={"call": str(call), "outcome": "operators_leak"},
        names={"found_leak": "leak"},
        without=("did", "same_as", "made_safe", "tag"),
        labels={"happened": _("When it was found to be ours")},
    )
    return entering(
        Page(
            template="dispatch/opens_leak.html",
            parts=[leak, outcome],
            areas=where.areas,
            then=lambda receipts: sheet_of(receipts[0].id, saved=receipts[0]),
            around={"call": where.call, "address": address_of_leak},
        )
    )


def _begins(where: OfCall) -> dict[str, Any]:
    """What is known from the call: when it was reported, as typed, how it came up, and where."""
    if where.call is None:
        return {}
    with store().reading() as tx:
        story = story_of_call(asker().scope, tx, call=where.call.id)
    received = next((t.entry for t in story.told if t.entry.kind == "call_received"), None) if story else None
    if received is None:
        return {}
    known = {name: received.text(name) for name in (*ADDRESS, "happened") if received.text(name)}
    return known | {"detected_by": "odor_call" if received.text("report") == "odor" else "other_call"}
