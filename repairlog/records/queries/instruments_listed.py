"""Instruments as a list of them asks: what each is, how its calibration stands on a day, when it was last checked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, and_, case, func, literal, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CALIBRATION, INSTRUMENT
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.known_as import bears_number
from repairlog.records.tables.made_one import stood_for, the_same_as
from repairlog.records.tables.within import within

_ADDED = OF_KIND["instrument_added"]
OUT_OF_TOLERANCE = "out_of_tolerance"
_FIRST, _LAST = date.min, date.max


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedInstruments:
    """Which instruments are asked for: empty or None asks for nothing. `on`: the day whose calibration counts. `text`:
    a part of the mark, the serial number, the maker or the model, or an outside number, the whole of it; `what`: a part
    of what it is. `standing`: `valid`, `ends_soon` (until `soon_until`), `out` or `never`. `retired`: those, instead of
    the ones in use on that day."""

    on: date
    soon_until: date
    area: UUID | None = None
    text: str = ""
    what: str = ""
    standing: str = ""
    retired: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedInstrument:
    """An instrument on the books. `calibrated_on`, `result`, `until_on`: of the last calibration before or on the day
    that is looked at, `until_on` being the last day on which it holds; empty where there is none. `checked_on`,
    `check`: the last check with gas. `due`: where it stands in the order in which calibrations are due."""

    id: UUID
    area: UUID
    mark: str
    what: str
    maker: str
    model: str
    serial_number: str
    retired_on: str
    calibrated_on: str
    result: str
    until_on: str
    checked_on: str
    check: str
    due: date

    def standing(self, *, on: str, soon_until: str) -> str:
        """How its calibration stands on that day: `valid`, `ends_soon`, `out` or `never`. Its last day counts."""
        if not self.calibrated_on:
            return "never"
        if self.result == OUT_OF_TOLERANCE or (self.until_on and self.until_on < on):
            return "out"
        return "ends_soon" if self.until_on and self.until_on <= soon_until else "valid"


def instruments_listed(
    scope: Scope, tx: Tx, *, asked: WantedInstruments, after: tuple[date, UUID] | None, most: int
) -> list[ListedInstrument]:
    """The instruments that are asked for, those first whose calibration is due first: never calibrated and out of
    tolerance, then by the last day, then those whose certificate says none. At most `most`, after that one."""
    last = CALIBRATION.alias("last")
    of_it = or_(
        CALIBRATION.c.instrument_id == INSTRUMENT.c.id, CALIBRATION.c.instrument_id.in_(the_same_as(INSTRUMENT.c.id))
    )
    newest = (
        select(CALIBRATION.c.entry_id)
        .where(of_it, CALIBRATION.c.calibrated_on <= asked.on)
        .order_by(CALIBRATION.c.calibrated_on.desc(), CALIBRATION.c.number.desc(), CALIBRATION.c.entry_id.desc())
        .limit(1)
        .correlate(INSTRUMENT)
        .scalar_subquery()
    )
    lacking = or_(last.c.result.is_(None), last.c.result == OUT_OF_TOLERANCE)
    day_type = INSTRUMENT.c.next_due_on.type
    due = case(
        (lacking, literal(_FIRST, day_type)), else_=func.coalesce(last.c.next_due_on, literal(_LAST, day_type))
    ).label("due")
    rows = (
        select(
            INSTRUMENT,
            _ADDED.c.maker,
            _ADDED.c.model,
            _ADDED.c.serial_number,
            last.c.calibrated_on.label("last_on"),
            last.c.result.label("last_result"),
            last.c.next_due_on.label("last_until"),
            due,
        )
        .join(_ADDED, _ADDED.c.id == INSTRUMENT.c.id)
        .outerjoin(last, last.c.entry_id == newest)
        .where(
            ~INSTRUMENT.c.void,
            INSTRUMENT.c.id.not_in(stood_for()),
            within(scope, INSTRUMENT.c.area_id),
            *_conditions(asked, last),
        )
    )
    if after is not None:
        day, id = after
        rows = rows.where(or_(due.element > day, and_(due.element == day, INSTRUMENT.c.id > id)))
    return [_read(row) for row in tx.connection.execute(rows.order_by(due, INSTRUMENT.c.id).limit(most))]


def _conditions(asked: WantedInstruments, last: Any) -> list[ColumnElement[bool]]:
    gone = and_(INSTRUMENT.c.retired_on.is_not(None), INSTRUMENT.c.retired_on <= asked.on)
    found: list[ColumnElement[bool]] = [gone if asked.retired else ~gone]
    found += [INSTRUMENT.c.area_id == asked.area] if asked.area else []
    found += [INSTRUMENT.c.what.icontains(asked.what, autoescape=True)] if asked.what else []
    if asked.text:
        columns = (INSTRUMENT.c.mark, _ADDED.c.serial_number, _ADDED.c.maker, _ADDED.c.model)
        parts = (column.icontains(asked.text, autoescape=True) for column in columns)
        found.append(or_(*parts, bears_number(INSTRUMENT.c.id, asked.text)))
    held = and_(last.c.result != OUT_OF_TOLERANCE, or_(last.c.next_due_on.is_(None), last.c.next_due_on >= asked.on))
    standing = {
        "never": last.c.entry_id.is_(None),
        "out": or_(last.c.result == OUT_OF_TOLERANCE, last.c.next_due_on < asked.on),
        "ends_soon": and_(held, last.c.next_due_on <= asked.soon_until),
        "valid": held,
    }
    return found + ([standing[asked.standing]] if asked.standing in standing else [])


def _read(row: Any) -> ListedInstrument:
    return ListedInstrument(
        id=row.id,
        area=row.area_id,
        mark=row.mark,
        what=row.what,
        maker=row.maker or "",
        model=row.model or "",
        serial_number=row.serial_number or "",
        retired_on=_day(row.retired_on),
        calibrated_on=_day(row.last_on),
        result=row.last_result or "",
        until_on=_day(row.last_until),
        checked_on=_day(row.checked_on),
        check=row.check_result or "",
        due=row.due,
    )


def _day(on: date | None) -> str:
    return on.isoformat() if on else ""
