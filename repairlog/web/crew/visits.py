"""A visit is entered: the places looked at, each with what was read there; a re-evaluation looks at the same holes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from functools import cache
from typing import Any
from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.entry import Standing
from repairlog.entries.kinds import KINDS
from repairlog.entries.visit import PURPOSES
from repairlog.intake import Complaint
from repairlog.intake.form import offer, raw_of
from repairlog.records.beside.preferred import preferred_units
from repairlog.records.queries.bar_holes import HoleRow, bar_holes_of
from repairlog.trade.grading import found_at
from repairlog.web.crew import looked_at
from repairlog.web.crew.least import (
    SEEN,
    Before,
    Binding,
    Least,
    as_set,
    binding_of,
    day_of,
    least_of,
    typed_visit,
    visits_to,
)
from repairlog.web.crew.looked_at import Looked, Raw
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.grades_known import grades_known
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.told import Told
from repairlog.web.frame.where import Where, area_of, where_of
from repairlog.words import _
from repairlog.words.days import day
from repairlog.words.story.fields import in_liked_unit

routes = room("visits", __name__)

PARTS = {"visit": "visit", "grade": "grade_set"}
"""The kind of each part."""

WITHOUT = ("readings.instrument_used",)
"""The mark of another instrument can be typed at a reading; a correction names it by the books."""

MOST_HOLES = next(rows.most for rows in KINDS["visit"].rows if rows.name == "places")
"""Holes that the page has boxes for, as many as a visit may look at: those that were made last."""


@routes.route("/leaks/<uuid:leak>/visit", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Enter a visit to that leak. `?purpose=` says what for."""
    where = where_of(leak)
    with store().reading() as tx:
        holes = bar_holes_of(asker().scope, tx, leak=leak)[-MOST_HOLES:]
        liked = preferred_units(tx, asker().actor.person).get("gas", "")
    bind = cache(lambda on: binding_of(where, on=on))
    before = cache(lambda: visits_to(leak))

    def called(visit: Raw, grade: Raw) -> Least:
        return _least(visit, grade, where=where, bind=bind, visits=before)

    def least(forms: Mapping[str, Form]) -> Least:
        visit, grade = (raw_of(KINDS[of], forms[part], area=area_of(where)) for part, of in PARTS.items())
        return called(_looked_only(visit, holes), grade)

    return on_leak(
        where,
        leak,
        template="crew/visit.html",
        parts=[_visit(leak, where, holes), _grade(leak, bind(where.on))],
        means=lambda call: _means(call, holes, called=called),
        ready=lambda forms, told: _ready(forms, told, holes=holes),
        shows_first=lambda forms: least(forms).token not in ("", request.form.get(SEEN, "")),
        answers=lambda forms, name: [forms[name], forms["visit"]],
        around={
            "purpose": _purpose_asked(),
            "looked": lambda form: looked_at.looked_at(form, holes),
            "units": looked_at.UNITS,
            "unit": request.form.get("unit", ""),
            "day": day,
            "beside": _beside(holes, before(), liked=liked) if liked else {},
            "least": least,
        },
    )


def _visit(leak: UUID, where: Where, holes: Sequence[HoleRow]) -> Part:
    begins: dict[str, Any] = {"outcome": "looked", **looked_at.first_rows(holes)}
    if purpose := _purpose_asked():
        begins["purpose"] = purpose
    choices = {
        "places.same_as": [(hole.name, _("Bar hole {number}").format(number=hole.number)) for hole in holes],
        "readings.place": [],
        "instrument_used": where.instruments,
        "did.person": where.people,
    }
    labels = {
        "happened": _("When you were there"),
        "outcome": _("Could you look?"),
        "readings.place": _("At which place"),
    }
    return Part(
        name="visit",
        kind="visit",
        said={"leak": str(leak)},
        choices=choices,
        begins=begins,
        labels=labels,
        without=WITHOUT,
    )


def _beside(holes: Sequence[HoleRow], visits: Sequence[Standing], *, liked: str) -> dict[tuple[UUID, str], str]:
    """By entry and row of a last reading, the same in the unit that the reader likes, as the entry was understood."""
    of = {visit.id: visit for visit in visits}
    return {
        (read.entry, read.key): in_liked_unit(of[read.entry], f"readings.{read.key}.value", liked=liked)
        for hole in holes
        for read in hole.last
        if read.entry in of
    }


def _purpose_asked() -> str:
    asked = request.args.get("purpose", "")
    return asked if asked in PURPOSES else ""


Bind = Callable[[str], Binding | None]
"""What binds the leak's area on a day."""


def _grade(leak: UUID, binding: Binding | None) -> Part:
    return Part(
        name="grade",
        kind="grade_set",
        said={"leak": str(leak)},
        choices={"grade": grades_known([binding.rulebook] if binding else [])},
        without=("happened", "did", "hazardous"),
        labels={"grade": _("The grade that you set now"), "reason": _("Why")},
        optional=True,
    )


def _least(visit: Raw, grade: Raw, *, where: Where, bind: Bind, visits: Callable[[], Sequence[Standing]]) -> Least:
    """What the readings of a visit as it is typed call for, under what bound the area on its day."""
    area = area_of(where)
    on = day_of(visit) or where.on
    binding = bind(on)
    if area is None or binding is None:
        return Least(binding=None)
    typed = typed_visit(visit, area=area)
    before = Before(
        found=found_at(typed, lel_basis=Decimal(area.lel_basis), grade=where.leak.grade if where.leak else ""),
        readings=looked_at.readings_said(visit),
        visits=[*visits(), typed],
        area=area,
    )
    return least_of(before, binding, leak=where.leak, grade=grade, on=on)


def _looked_only(visit: Raw, holes: Sequence[HoleRow]) -> dict[str, Any]:
    return looked_at.looked_only(visit, holes=holes, unit=request.form.get("unit", ""))


def _means(
    call: Call, holes: Sequence[HoleRow], *, called: Callable[[Raw, Raw], Least]
) -> tuple[Call, list[Complaint]]:
    """The visit without what nobody touched, and the grade at its time with the criterion that calls for it."""
    if "visit" not in call:
        return call, []
    visit = _looked_only(call["visit"], holes)
    meant: dict[str, Raw] = {**call, "visit": visit}
    if "grade" in call:
        least = called(visit, call["grade"])
        with_it = {name: visit[name] for name in ("happened", "did") if name in visit}
        meant["grade"] = as_set(call["grade"], least) | with_it
    return meant, looked_at.contradictions(visit)


def _ready(forms: Mapping[str, Form], told: Told, *, holes: Sequence[HoleRow]) -> None:
    """Every known hole has its row, every place its reading; a further reading names one of the places. What is wrong
    with the time of the visit is said once."""
    told.wrongs = list(dict.fromkeys(told.wrongs))
    form = forms["visit"]
    looked_at.complete(form, holes)
    places, further = looked_at.looked_at(form, holes)
    for each in places:  # a box left empty is no reading, and a place that nobody touched is none
        each.place["kind"].flags.required = each.reading["value"].flags.required = False
    names = [(each.place["key"].data, _name_of(each)) for each in places]
    for reading in further:
        offer(reading["place"], names)


def _name_of(looked: Looked) -> str:
    if looked.hole is not None:
        return _("Bar hole {number}").format(number=looked.number)
    label = looked.place["label"].data or ""
    return (_("Place {number}: {label}") if label else _("Place {number}")).format(number=looked.number, label=label)
