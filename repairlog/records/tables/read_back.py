"""Worked rows read back into what their fold gave: what the rows were made of, and the same again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import Any

import orjson
from sqlalchemy import Row

from repairlog.entries.ids import read_id
from repairlog.trade.adopted import Adoption, Confirmed
from repairlog.trade.area import Area
from repairlog.trade.instrument import Calibration, Instrument
from repairlog.trade.lot import Lot
from repairlog.trade.person import Qualification, Qualified


def area_of(row: Row[Any]) -> Area:
    """The area of a row of `area`."""
    return Area(
        id=row.id,
        name=row.name,
        code=row.code,
        zone=row.zone,
        elevation=row.elevation or "",
        lel_basis=row.lel_basis,
        settings_version=row.settings_version,
        cut_over_on=_day(row.cut_over_on),
        calendar=row.calendar or "",
        adoptions=_adoptions(row.adoptions),
        confirmed=_confirmed(row.confirmed),
        typing_hours=row.typing_hours,
        own_acceptance=row.own_acceptance,
    )


def adoptions_text(of: Sequence[Adoption]) -> str | None:
    """Adoptions as a row of `area` has them; None where there are none."""
    rows = [[each.from_on, each.until_on, each.rulebook, each.digest, str(each.entry)] for each in of]
    return orjson.dumps(rows).decode() if rows else None


def confirmed_text(of: Sequence[Confirmed]) -> str | None:
    """Confirmed rules as a row of `area` has them; None where there are none."""
    by_digest: dict[str, dict[str, str]] = {}
    for each in of:
        by_digest.setdefault(each.digest, {})[each.rule] = each.on
    return orjson.dumps(by_digest, option=orjson.OPT_SORT_KEYS).decode() if by_digest else None


@lru_cache(maxsize=256)  # every page and every post reads them, and they hardly ever change
def _adoptions(text: str | None) -> tuple[Adoption, ...]:
    return tuple(
        Adoption(entry=read_id(entry), rulebook=rulebook, digest=digest, from_on=from_on, until_on=until_on)
        for from_on, until_on, rulebook, digest, entry in orjson.loads(text or "[]")
    )


@lru_cache(maxsize=256)
def _confirmed(text: str | None) -> tuple[Confirmed, ...]:
    found = orjson.loads(text or "{}")
    return tuple(Confirmed(digest=of, rule=rule, on=on) for of, rules in found.items() for rule, on in rules.items())


def lot_of(row: Row[Any]) -> Lot:
    """The lot of a row of `lot`."""
    return Lot(
        id=row.id,
        area=str(row.area_id),
        item=row.item,
        lot_number=row.lot_number,
        expires_on=_day(row.expires_on),
        void=row.void,
        status=row.status or "in_stock",
        lies_at=row.lies_at or "",
        shelf=row.shelf_id,
        quarantined=tuple((began, ended) for began, ended in orjson.loads(row.quarantined or "[]")),
        scrapped_on=_day(row.scrapped_on),
        received_on=_day(row.received_on),
    )


def qualified_of(rows: Sequence[Row[Any]]) -> Qualified:
    """What leaks rest on of a person: rows of `person` beside each of the person's of `qualification`, or one row
    without."""
    first = rows[0]
    return Qualified(
        id=first.id,
        name=first.name,
        void=first.void,
        left_on=_day(first.left_on),
        qualifications=tuple(qualification_of(row) for row in rows if row.entry_id),
    )


def qualification_of(row: Row[Any]) -> Qualification:
    """The qualification of a row of `qualification`."""
    return Qualification(
        entry=row.entry_id,
        task=row.task,
        from_on=_day(row.from_on),
        until_on=_day(row.until_on),
        ended_on=_day(row.ended_on),
        ended_how=row.ended_how or "",
    )


def instrument_of(rows: Sequence[Row[Any]]) -> Instrument:
    """The instrument of rows of `instrument` beside each of its calibrations, in their order, or of one row without;
    the columns of these are named `each_on`, `each_result`, `each_next_due_on`."""
    first = rows[0]
    return Instrument(
        id=first.id,
        area=str(first.area_id),
        mark=first.mark,
        what=first.what,
        retired_on=_day(first.retired_on),
        checked_on=_day(first.checked_on),
        check=first.check_result or "",
        void=first.void,
        calibrations=tuple(
            Calibration(
                entry=row.entry_id,
                on=_day(row.each_on),
                result=row.each_result,
                next_due_on=_day(row.each_next_due_on),
            )
            for row in rows
            if row.entry_id
        ),
    )


def _day(on: date | None) -> str:
    return on.isoformat() if on else ""
