"""The list of leaks."""

from __future__ import annotations

from flask import render_template
from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room

routes = room("leaks", __name__)


@routes.get("/leaks")
def page() -> ResponseReturnValue:
    """The leaks that the asker may see."""
    return render_template("everyone/leaks.html")
