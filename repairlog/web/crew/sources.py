"""A source of a leak: what leaks, and the pipe it sits on."""

from __future__ import annotations

from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.where import sheet_of, where_of
from repairlog.words import _

routes = room("sources", __name__)


@routes.route("/leaks/<uuid:leak>/source", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Add a source to that leak."""
    where = where_of(leak)
    source = Part(
        name="source",
        kind="source_added",
        said={"leak": str(leak)},
        choices={"did.person": where.people},
        labels={"happened": _("When it was found")},
    )
    return entering(
        Page(
            template="crew/source.html",
            parts=[source],
            areas=where.areas,
            then=lambda receipts: sheet_of(leak, saved=receipts[0]),
            around={"leak": where.leak},
        )
    )
