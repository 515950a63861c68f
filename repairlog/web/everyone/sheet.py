"""The sheet of one leak: its whole story on one page."""

from __future__ import annotations

from uuid import UUID

from flask import abort, render_template
from flask.typing import ResponseReturnValue

from repairlog.records.queries.leaks import leak_with_id
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import leaks as words
from repairlog.words.addresses import address_of_leak

routes = room("sheet", __name__)


@routes.get("/leaks/<uuid:leak>")
def page(leak: UUID) -> ResponseReturnValue:
    """The story of that leak; there is none for whoever may not see it."""
    with store().reading() as tx:
        row = leak_with_id(asker().scope, tx, leak=leak)
    if row is None:
        abort(404)
    return render_template("everyone/sheet.html", leak=row, address=address_of_leak(row), words=words)
