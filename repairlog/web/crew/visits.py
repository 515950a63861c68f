"""A visit is entered: the places looked at, each with what was read there; a re-evaluation looks at the same holes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.visit import PURPOSES
from repairlog.intake import Complaint
from repairlog.intake.form import offer
from repairlog.records.queries.bar_holes import HoleRow, bar_holes_of
from repairlog.web.crew import looked_at
from repairlog.web.crew.looked_at import Looked
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Page, Part, entering
from repairlog.web.frame.where import Where, sheet_of, where_of
from repairlog.words import _
from repairlog.words.days import day

routes = room("visits", __name__)

WITHOUT = ("readings.instrument_used",)
"""The mark of another instrument can be typed at a reading; a correction names it by the books."""


@routes.route("/leaks/<uuid:leak>/visit", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Enter a visit to that leak. `?purpose=` says what for."""
    where = where_of(leak)
    with store().reading() as tx:
        holes = bar_holes_of(asker().scope, tx, leak=leak)
    return entering(
        Page(
            template="crew/visit.html",
            parts=[_visit(leak, where, holes)],
            areas=where.areas,
            then=lambda receipts: sheet_of(leak, saved=receipts[0]),
            means=lambda call: _means(call, holes),
            ready=lambda forms, _told: _ready(forms["visit"], holes),
            around={
                "leak": where.leak,
                "purpose": _purpose_asked(),
                "looked": lambda form: looked_at.looked_at(form, holes),
                "units": looked_at.UNITS,
                "unit": request.form.get("unit", ""),
                "day": day,
            },
        )
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


def _purpose_asked() -> str:
    asked = request.args.get("purpose", "")
    return asked if asked in PURPOSES else ""


def _means(call: Call, holes: Sequence[HoleRow]) -> tuple[Call, list[Complaint]]:
    if "visit" not in call:
        return call, []
    visit = looked_at.looked_only(call["visit"], holes=holes, unit=request.form.get("unit", ""))
    return {**call, "visit": visit}, looked_at.contradictions(visit)


def _ready(form: Form, holes: Sequence[HoleRow]) -> None:
    """Every known hole has its row, every place its reading; a further reading names one of the places."""
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
