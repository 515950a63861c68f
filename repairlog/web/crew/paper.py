"""Blank forms to print, for where no device may be; what is written on them is typed in later."""

from __future__ import annotations

from itertools import groupby

from flask import abort, render_template
from flask.typing import ResponseReturnValue

from repairlog.access.posts import POSTS
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.records.queries.settings import areas
from repairlog.web.frame.asking import asker, room, store
from repairlog.words.paper import Paper, paper

routes = room("paper", __name__)

ON_A_DEVICE = ("attached", "figure_kept")
"""What is made of a file, or of what was worked out: nothing that a hand writes."""

FORMS = tuple(kind for kind in KINDS if "crew" in POSTS[kind] and kind not in (*RIGHTING, *ON_A_DEVICE))
"""The kinds of entries that a crew fills in."""


@routes.get("/paper")
def page() -> ResponseReturnValue:
    """Every blank form, by what it is about."""

    def group(form: tuple[str, Paper]) -> str:
        return form[1].group

    forms = sorted(((kind, paper(KINDS[kind])) for kind in FORMS), key=group)
    return render_template("crew/papers.html", groups=[(name, list(of)) for name, of in groupby(forms, key=group)])


@routes.get("/paper/<kind>")
def form(kind: str) -> ResponseReturnValue:
    """The blank form of that kind of entry."""
    if kind not in FORMS:
        abort(404)
    with store().reading() as tx:
        here = [area.name for area in areas(asker().scope, tx)]
    return render_template("crew/paper.html", paper=paper(KINDS[kind]), areas=here)
