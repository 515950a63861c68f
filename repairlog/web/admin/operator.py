"""The operator whose book it is: its name, its own time zone, and every entry about it."""

from __future__ import annotations

from uuid import UUID

from flask import abort, render_template
from flask.typing import ResponseReturnValue

from repairlog.records.queries.settings import operator as of_book
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of

routes = room("operator", __name__)


@routes.get("/operator/<uuid:operator>")
def page(operator: UUID) -> ResponseReturnValue:
    """That operator; 404 for whoever does not see every area."""
    with store().reading() as tx:
        row = of_book(asker().scope, tx)
        if row is None or row.id != operator:
            abort(404)
        told = told_of(tx, operator)
    return render_template("admin/operator.html", operator=row, of=told)
