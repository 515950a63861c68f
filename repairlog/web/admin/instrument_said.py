"""What is said of an instrument: added, calibrated, checked with gas, retired."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.intake.form import Choices
from repairlog.records.queries.lots import lots_of
from repairlog.records.queries.named import named
from repairlog.records.queries.people import people_of
from repairlog.records.queries.settings import areas, subjects
from repairlog.records.store import Tx
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, Step, areas_to_choose, enters, people_to_choose
from repairlog.web.frame.entering import Page, Part, entering
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
        begins={"area": offered[0][0]} if len(offered) == 1 else {},
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
        area, name = _where(tx, instrument)
        choices = _choices(tx, of.kind, area)
    if area is None and request.method == "GET":
        abort(404)
    return enters(
        Says(
            kind=of.kind,
            heading=of.heading,
            save=of.save,
            called=name,
            back=url_for("instrument.page", instrument=instrument),
            then=url_for("instrument.page", instrument=instrument),
            opens_to=bool(area and asker().may(of.kind, area=area.id)),
            areas=[area] if area else [],
            said={"subject": str(instrument)},
            choices=choices,
            labels={"happened": of.happened},
            first=of.first,
            hint=of.hint,
            caution=of.caution,
        )
    )


def _where(tx: Tx, instrument: UUID) -> tuple[Area | None, str]:
    """The instrument's area and its mark, where the asker may see it."""
    rows = [row for row in subjects(asker().scope, tx, ids=[instrument]) if row.kind == "instrument"]
    area = next((each for each in areas(asker().scope, tx) if rows and each.id == rows[0].area), None)
    called = named(asker().scope, tx, ids=[instrument]).get(instrument) if area else None
    return area, called.called if called else ""


def _choices(tx: Tx, kind: str, area: Area | None) -> Mapping[str, Choices]:
    people = people_of(asker().scope, tx, area=area.id) if area else []
    choices: dict[str, Choices] = {"did.person": [(str(row.id), row.name) for row in people]}
    if kind == "instrument_checked":
        lots = lots_of(asker().scope, tx, area=area.id) if area else []
        choices["cylinder"] = [(str(lot.id), f"{lot.lot_number}, {lot.item}") for lot in lots]
    return choices
