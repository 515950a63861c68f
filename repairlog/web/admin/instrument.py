"""An instrument: its calibrations and checks by date, where it was used, and what does not hold up because of it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.records.queries.instruments_listed import OUT_OF_TOLERANCE
from repairlog.records.queries.rests_on import uses_of
from repairlog.records.queries.settings import areas
from repairlog.trade.instrument import Instrument
from repairlog.trade.instrument import instrument as fold
from repairlog.web.admin.people_filter import SOON
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import told_of
from repairlog.web.frame.moved_away import way_to_move
from repairlog.words import _
from repairlog.words import instruments as words
from repairlog.words.boxes import label
from repairlog.words.codes import word
from repairlog.words.days import day

USES = 30
"""Entries of leaks that are shown."""

routes = room("instrument", __name__)


@routes.get("/instruments/<uuid:instrument>")
def page(instrument: UUID) -> ResponseReturnValue:
    """Everything about that instrument."""
    who = asker()
    with store().reading() as tx:
        told = told_of(tx, instrument)
        as_is = fold([each.entry for each in told.story.told])
        if as_is is None:
            abort(404)
        uses = uses_of(who.scope, tx, instruments=[instrument], most=USES)
        area = next((area for area in areas(who.scope, tx) if str(area.id) == as_is.area), None)
    added = next(each.entry for each in told.story.told if each.entry.id == as_is.id)
    last = as_is.calibrations[-1] if as_is.calibrations else None
    return render_template(
        "admin/instrument.html",
        instrument=as_is,
        of=told,
        area=area,
        facts=[added.text(name) for name in ("maker", "model", "serial_number") if added.text(name)],
        standing=_standing(as_is, on=who.on),
        standing_told=words.standing_told(
            _standing(as_is, on=who.on),
            until_on=last.next_due_on if last else "",
            result=last.result if last else "",
        ),
        calibrations=list(_calibrations(as_is, [each.entry for each in told.story.told])),
        uses=[(use, label(KINDS[use.what].says)) for use in uses],
        ways=list(_ways(as_is)),
        day=day,
        word=word,
    )


def _standing(of: Instrument, *, on: str) -> str:
    if not of.calibrations:
        return "never"
    last = of.calibrations[-1]
    if last.result == OUT_OF_TOLERANCE or (last.next_due_on and last.next_due_on < on):
        return "out"
    soon = (date.fromisoformat(on) + timedelta(days=int(SOON[0]))).isoformat()
    return "ends_soon" if last.next_due_on and last.next_due_on <= soon else "valid"


def _calibrations(of: Instrument, entries: list[Standing]) -> Iterator[tuple[object, str]]:
    """Each calibration, the newest first, with who did it and its certificate."""
    by_id = {entry.id: entry for entry in entries}
    for each in reversed(of.calibrations):
        entry = by_id[each.entry]
        yield each, ", ".join(filter(None, (entry.text("by_whom"), entry.text("certificate_number"))))


def _ways(of: Instrument) -> Iterator[tuple[str, str]]:
    offered = [
        ("instrument_checked", "check", _("Log a check with gas")),
        ("instrument_calibrated", "calibrated", _("Log a calibration")),
        ("instrument_retired", "retired", _("Retire it")),
    ]
    for kind, said, name in offered:
        if asker().may(kind, area=read_id(of.area)) and not (said == "retired" and of.retired_on):
            yield name, url_for("instrument_said.page", instrument=of.id, said=said)
    yield from way_to_move("instrument", of.id, area=read_id(of.area))
