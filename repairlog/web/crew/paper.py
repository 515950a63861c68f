"""Blank forms to print, for where no device may be; what is written on them is typed in later."""

from __future__ import annotations

from flask import abort, render_template
from flask.typing import ResponseReturnValue

from repairlog.access.posts import POSTS
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.web.frame.asking import room
from repairlog.words.paper import paper

routes = room("paper", __name__)

FORMS = tuple(kind for kind in KINDS if "crew" in POSTS[kind] and kind not in RIGHTING)
"""The kinds of entries that a crew fills in."""


@routes.get("/paper")
def page() -> ResponseReturnValue:
    """Every blank form."""
    return render_template("crew/papers.html", forms=[(kind, paper(KINDS[kind])) for kind in FORMS])


@routes.get("/paper/<kind>")
def form(kind: str) -> ResponseReturnValue:
    """The blank form of that kind of entry."""
    if kind not in FORMS:
        abort(404)
    return render_template("crew/paper.html", paper=paper(KINDS[kind]))
