"""A note on a leak."""

from __future__ import annotations

from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import where_of

routes = room("notes", __name__)


@routes.route("/leaks/<uuid:leak>/note", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Write a note on that leak."""
    where = where_of(leak)
    note = Part(name="note", kind="note", said={"subject": str(leak)}, choices={"did.person": where.people})
    return on_leak(where, leak, template="crew/note.html", parts=[note])
