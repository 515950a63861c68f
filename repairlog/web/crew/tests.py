"""A further test of a repair: the last one decides over the attempt."""

from __future__ import annotations

from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import attempt_in, where_of
from repairlog.words import _, sources

routes = room("tests", __name__)


@routes.route("/leaks/<uuid:leak>/attempts/<uuid:attempt>/test", methods=["GET", "POST"])
def page(leak: UUID, attempt: UUID) -> ResponseReturnValue:
    """Enter a test of that attempt."""
    where = where_of(leak)
    tested = attempt_in(where, attempt)
    test = Part(
        name="test",
        kind="tested",
        said={"leak": str(leak), "attempt": str(attempt)},
        choices={"did.person": where.people, "instrument_used": where.instruments},
        labels={"happened": _("When it was tested")},
    )
    return on_leak(
        where,
        leak,
        template="crew/test.html",
        parts=[test],
        around={"attempt": tested and sources.attempt(tested.attempt, method=tested.method)},
    )
