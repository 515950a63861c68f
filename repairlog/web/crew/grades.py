"""A leak's grade."""

from __future__ import annotations

from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.where import sheet_of, where_of
from repairlog.words import _

routes = room("grades", __name__)


@routes.route("/leaks/<uuid:leak>/grade", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Set that leak's grade."""
    where = where_of(leak)
    grade = Part(
        name="grade",
        kind="grade_set",
        said={"leak": str(leak)},
        choices={"did.person": where.people},
        labels={"happened": _("When it was graded")},
    )
    return entering(
        Page(
            template="crew/grade.html",
            parts=[grade],
            areas=where.areas,
            then=lambda receipts: sheet_of(leak, saved=receipts[0]),
            around={"leak": where.leak},
        )
    )
