"""A leak's grade, beside what the last readings call for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import KINDS
from repairlog.intake.form import raw_of
from repairlog.trade.grading import Found, found_at
from repairlog.web.crew import looked_at
from repairlog.web.crew.least import SEEN, Before, Binding, Least, as_set, binding_of, day_of, least_of, visits_to
from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.grades_known import grades_known
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import Where, area_of, where_of
from repairlog.words import _

routes = room("grades", __name__)


@routes.route("/leaks/<uuid:leak>/grade", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Set that leak's grade."""
    where = where_of(leak)
    visits = visits_to(leak)
    binding = binding_of(where, on=where.on)

    def least(forms: Mapping[str, Form]) -> Least:
        return _least(raw_of(KINDS["grade_set"], forms["grade"], area=area_of(where)), visits, where=where)

    grade = Part(
        name="grade",
        kind="grade_set",
        said={"leak": str(leak)},
        choices={"did.person": where.people, "grade": grades_known([binding.rulebook] if binding else [])},
        labels={"happened": _("When it was graded")},
    )
    return on_leak(
        where,
        leak,
        template="crew/grade.html",
        parts=[grade],
        means=lambda call: (_means(call, visits, where=where), ()),
        shows_first=lambda forms: bool(forms["grade"]["grade"].data) and _unseen(least(forms)),
        around={"least": least},
    )


def _unseen(least: Least) -> bool:
    return least.token not in ("", request.form.get(SEEN, ""))


def _least(grade: Mapping[str, str], visits: Sequence[Standing], *, where: Where) -> Least:
    """What the last look at which somebody read anything calls for."""
    area = area_of(where)
    on = day_of(grade) or where.on
    binding: Binding | None = binding_of(where, on=on)
    if area is None:
        return Least(binding=None)
    code = grade.get("grade", "") or (where.leak.grade if where.leak else "")
    look = next((each for each in reversed(visits) if each.rows("readings")), None)
    before = Before(
        found=found_at(look, lel_basis=Decimal(area.lel_basis), grade=code) if look else Found(),
        readings=looked_at.readings_said(look.said) if look else {},
        visits=visits,
        area=area,
    )
    return least_of(before, binding, leak=where.leak, grade=grade, on=on)


def _means(call: Call, visits: Sequence[Standing], *, where: Where) -> Call:
    """The grade with the criterion that calls for it, where it is the grade that is called for."""
    if "grade" not in call:
        return call
    return {**call, "grade": as_set(call["grade"], _least(call["grade"], visits, where=where))}
