"""An instrument: its calibrations and checks by date, where it was used, and what does not hold up because of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

from flask import abort, render_template, url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.ids import read_id
from repairlog.entries.kinds import KINDS
from repairlog.records.queries.instruments_listed import OUT_OF_TOLERANCE
from repairlog.records.queries.made_one import Record, one_with, sameness
from repairlog.records.queries.rests_on import uses_of
from repairlog.records.queries.settings import areas
from repairlog.records.story import Story
from repairlog.trade.instrument import Calibration, Instrument
from repairlog.trade.instrument import instrument as fold
from repairlog.web.admin.people_filter import SOON
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import stories_of, told_of
from repairlog.web.frame.moved_away import way_to_move
from repairlog.words import _
from repairlog.words import instruments as words
from repairlog.words.boxes import label
from repairlog.words.codes import word
from repairlog.words.days import day

USES = 30
"""Entries of leaks that are shown."""

routes = room("instrument", __name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibrated:
    """A calibration, with who did it and its certificate. `record`: on which of the instrument's records it stands."""

    of: Calibration
    whose: str
    record: Record


@routes.get("/instruments/<uuid:instrument>")
def page(instrument: UUID) -> ResponseReturnValue:
    """Everything about that instrument."""
    who = asker()
    with store().reading() as tx:
        told = told_of(tx, instrument)
        as_is = fold([each.entry for each in told.story.told])
        if as_is is None:
            abort(404)
        same, others = sameness(who.scope, tx, id=instrument), one_with(who.scope, tx, id=instrument)
        uses = uses_of(who.scope, tx, instruments=[instrument, *(each.id for each in others)], most=USES)
        records = [(Record(id=instrument, called=as_is.mark), told.story), *stories_of(tx, others)]
        area = next((area for area in areas(who.scope, tx) if str(area.id) == as_is.area), None)
    added = next(each.entry for each in told.story.told if each.entry.id == as_is.id)
    calibrations = _calibrations(records)
    last = calibrations[0].of if calibrations else None
    return render_template(
        "admin/instrument.html",
        instrument=as_is,
        of=told,
        area=area,
        facts=[added.text(name) for name in ("maker", "model", "serial_number") if added.text(name)],
        same=same,
        several=bool(others),
        standing=_standing(last, on=who.on),
        standing_told=words.standing_told(
            _standing(last, on=who.on),
            until_on=last.next_due_on if last else "",
            result=last.result if last else "",
        ),
        calibrations=calibrations,
        uses=[(use, label(KINDS[use.what].says)) for use in uses],
        ways=list(_ways(as_is)),
        day=day,
        word=word,
    )


def _standing(last: Calibration | None, *, on: str) -> str:
    if last is None:
        return "never"
    if last.result == OUT_OF_TOLERANCE or (last.next_due_on and last.next_due_on < on):
        return "out"
    soon = (date.fromisoformat(on) + timedelta(days=int(SOON[0]))).isoformat()
    return "ends_soon" if last.next_due_on and last.next_due_on <= soon else "valid"


def _calibrations(records: Sequence[tuple[Record, Story]]) -> list[Calibrated]:
    """Each calibration on each record of the instrument, the newest first."""
    found = []
    for record, story in records:
        by_id = {each.entry.id: each.entry for each in story.told}
        as_is = fold(list(by_id.values()))
        for each in reversed(as_is.calibrations if as_is else ()):
            entry = by_id[each.entry]
            whose = ", ".join(filter(None, (entry.text("by_whom"), entry.text("certificate_number"))))
            found.append(Calibrated(of=each, whose=whose, record=record))
    return sorted(found, key=lambda each: each.of.on, reverse=True)


def _ways(of: Instrument) -> Iterator[tuple[str, str]]:
    offered = [
        ("instrument_checked", "check", _("Log a check with gas")),
        ("instrument_calibrated", "calibrated", _("Log a calibration")),
        ("instrument_retired", "retired", _("Retire it")),
    ]
    for kind, said, name in offered:
        if asker().may(kind, area=read_id(of.area)) and not (said == "retired" and of.retired_on):
            yield name, url_for("instrument_said.page", instrument=of.id, said=said)
    if asker().may("made_one", area=read_id(of.area)):
        yield _("The same as another"), url_for("made_one.choose", subject=of.id)
    yield from way_to_move("instrument", of.id, area=read_id(of.area))
