"""What is said of an instrument: added, calibrated, checked with gas, retired."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask import abort, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.named import named
from repairlog.records.queries.settings import subjects
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Step, enters_step
from repairlog.web.frame.entering import Page, Part, entering
from repairlog.web.frame.there import (
    Here,
    area_first,
    area_there,
    areas_to_choose,
    hide,
    lots_there,
    people_there,
    people_to_choose,
)
from repairlog.words import _

routes = room("instrument_said", __name__)


def steps() -> Mapping[str, Step]:
    """What may be said of an instrument, by the last part of its address."""
    return {
        "calibrated": Step(
            kind="instrument_calibrated",
            heading=_("Log a calibration"),
            save=_("Save the calibration"),
            happened=_("When it was calibrated"),
            first=("next_due_on", "by_whom", "certificate_number"),
            hint=_("Readings taken after this day and before the next calibration rest on it."),
        ),
        "check": Step(
            kind="instrument_checked",
            heading=_("Log a check with gas"),
            save=_("Save the check"),
            happened=_("When it was checked"),
            first=("expected", "read", "cylinder", "cylinder_named"),
            caution=True,
        ),
        "retired": Step(
            kind="instrument_retired",
            heading=_("Retire an instrument"),
            save=_("Retire it"),
            happened=_("From when"),
            first=("reason",),
            hint=_("From that day on it is offered nowhere. What it read before stays as it is."),
        ),
    }


@routes.route("/instruments/new", methods=["GET", "POST"])
def new() -> ResponseReturnValue:
    """Add an instrument, with the calibration that it comes with."""
    with store().reading() as tx:
        here, offered = areas_to_choose(tx)
        people = people_to_choose(tx)
    added = Part(
        name="entry",
        kind="instrument_added",
        choices={"area": offered, "did.person": people},
        labels={"happened": _("Since when it is in use")},
        begins=area_first(here),
    )
    calibrated = Part(
        name="calibrated",
        kind="instrument_calibrated",
        without=("points", "typed_from", "did"),
        names={"subject": "entry"},
        labels={"happened": _("When it was calibrated")},
        optional=True,
    )
    return entering(
        Page(
            template="admin/instrument_new.html",
            parts=[added, calibrated],
            areas=here,
            then=lambda receipts: url_for("instrument.page", instrument=receipts[0].id, saved=receipts[0].id),
            open_to_asker=any(asker().may("instrument_added", area=area.id) for area in here),
        )
    )


@routes.route("/instruments/<uuid:instrument>/<said>", methods=["GET", "POST"])
def page(instrument: UUID, said: str) -> ResponseReturnValue:
    """Say that of that instrument."""
    if said not in steps():
        abort(404)
    of = steps()[said]
    with store().reading() as tx:
        here, name = _where(tx, instrument)
        choices = {"did.person": people_there(tx, here)}
        choices |= {"cylinder": lots_there(tx, here)} if of.kind == "instrument_checked" else {}
    hide(here)
    return enters_step(
        of,
        instrument,
        at=url_for("instrument.page", instrument=instrument),
        called=name,
        opens_to=bool(here) and asker().may(of.kind, area=here[0].id),
        areas=here,
        choices=choices,
    )


def _where(tx: Tx, instrument: UUID) -> tuple[Here, str]:
    """The instrument's area and its mark, where the asker may see it."""
    rows = [row for row in subjects(asker().scope, tx, ids=[instrument]) if row.kind == "instrument"]
    here = area_there(tx, rows[0].area) if rows else []
    called = named(asker().scope, tx, ids=[instrument]).get(instrument) if here else None
    return here, called.called if called else ""
