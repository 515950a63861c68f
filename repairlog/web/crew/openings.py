"""A leak is opened: what was reported, where, and the first grade where one was set already."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.trade.rulebook import Rulebook
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Page, Part, entering
from repairlog.web.frame.grades_known import grades_known, rulebooks_of, with_rank
from repairlog.web.frame.there import area_choices, area_first, areas_for, people_there
from repairlog.web.frame.where import sheet_of
from repairlog.words import _

routes = room("openings", __name__)


@routes.route("/leaks/new", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """Open a leak in one of the areas in which the asker may."""
    with store().reading() as tx:
        here = areas_for(tx, "leak_opened")
        rulebooks = rulebooks_of(tx, here, on=asker().on)
        choices = {"area": area_choices(here), "did.person": people_there(tx, here)}
    leak = Part(
        name="leak",
        kind="leak_opened",
        choices=choices,
        without=("number", "from_call"),  # of an older list, which an import brings; of a call, whose page opens it
        labels={"happened": _("When it was reported")},
        begins=area_first(here),
    )
    grade = Part(
        name="grade",
        kind="grade_set",
        names={"leak": "leak"},
        choices={"grade": grades_known(rulebooks.values())},
        without=("did",),
        labels={"happened": _("When it was graded")},
        optional=True,
    )
    return entering(
        Page(
            template="crew/opening.html",
            parts=[leak, grade],
            areas=here,
            then=lambda receipts: sheet_of(receipts[0].id, saved=receipts[0]),
            means=lambda call: (_ranked(call, rulebooks), ()),
        )
    )


def _ranked(call: Call, rulebooks: Mapping[UUID, Rulebook]) -> Call:
    """The same with the rank of a grade that the rulebook of the chosen area knows."""
    area = as_id(call["leak"].get("area")) if "leak" in call else None
    if "grade" not in call or area is None:
        return call
    return {**call, "grade": with_rank(call["grade"], rulebooks.get(area))}
