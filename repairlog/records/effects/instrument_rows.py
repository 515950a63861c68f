"""The worked rows of instruments."""

from __future__ import annotations

from collections.abc import Sequence

from repairlog.entries.entry import Standing
from repairlog.entries.ids import read_id
from repairlog.records.effects.rows import as_day, put_row
from repairlog.records.tables import books
from repairlog.records.tables.picture import Picture
from repairlog.trade.instrument import instrument
from repairlog.trade.rests import Rests


def instrument_rows(entries: Sequence[Standing], _rests: Rests) -> Picture:
    """The rows of an instrument and of its calibrations. `entries`: its story."""
    picture: Picture = {}
    if (as_is := instrument(entries)) is None:
        return picture
    last = as_is.calibrations[-1] if as_is.calibrations else None
    put_row(
        picture,
        books.INSTRUMENT,
        id=as_is.id,
        area_id=read_id(as_is.area),
        mark=as_is.mark,
        what=as_is.what,
        retired_on=as_day(as_is.retired_on),
        calibrated_on=as_day(last.on) if last else None,
        result=last.result if last else None,
        next_due_on=as_day(last.next_due_on) if last else None,
        checked_on=as_day(as_is.checked_on),
        check_result=as_is.check or None,
        void=as_is.void,
    )
    for number, each in enumerate(as_is.calibrations, start=1):
        put_row(
            picture,
            books.CALIBRATION,
            entry_id=each.entry,
            instrument_id=as_is.id,
            number=number,
            calibrated_on=as_day(each.on),
            result=each.result,
            next_due_on=as_day(each.next_due_on),
        )
    return picture
