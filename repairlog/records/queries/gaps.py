"""What in the records of leaks, their digs and calls does not hold up: a list by day, code and area."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Row, and_, func, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS
from repairlog.records.tables.seen import sees_call, sees_leak
from repairlog.records.tables.worked import CALL, GAP, LEAK

_OPENED, _RECEIVED, _ASIDE = OF_KIND["leak_opened"], OF_KIND["call_received"], OF_KIND["gap_set_aside"]
_SERVED = OF_ROWS["dig_opened", "leaks"]

_OF_A_DIG = (
    select(_SERVED.c.leak_id)
    .where(_SERVED.c.entry_id == GAP.c.subject_id)
    .order_by(_SERVED.c.leak_id)
    .limit(1)
    .correlate(GAP)
    .scalar_subquery()
)
"""Of a dig, one leak that it was opened for, on whose sheet it is told; of any other subject nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedGaps:
    """Which gaps are asked for: empty or None asks for nothing. `aside`: those that were set aside, instead of the
    others. `from_on`, `until_on`: of entries that happened from that day, until that day, both counted in."""

    code: str = ""
    area: UUID | None = None
    from_on: date | None = None
    until_on: date | None = None
    aside: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GapEdge:
    """The gap after which a page begins."""

    on: date
    entry: UUID
    code: str
    row: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GapRow:
    """A gap in the record of a leak, of a dig that serves it, or of a call. `on`: day of the entry that it is about;
    `kind`: that entry's kind. `leak`, `call`: on whose page it is told, one of the two. `number` and the address: of
    these. `why_aside`: the reason for which it was set aside, empty where it was not."""

    code: str
    leak: UUID | None
    call: UUID | None
    entry: UUID
    row: str
    facts: Mapping[str, str]
    on: str
    kind: str
    why_aside: str
    area: UUID
    number: str
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str


def gaps(scope: Scope, tx: Tx, *, asked: WantedGaps, after: GapEdge | None, most: int) -> list[GapRow]:
    """The gaps in scope that are asked for, those of the newest entries first; at most `most`, after that
    one."""
    key = (GAP.c.happened_on, GAP.c.entry_id, GAP.c.code, GAP.c.row_key)
    either = [
        *(func.coalesce(LEAK.c[name], CALL.c[name]).label(name) for name in ("number", "house_number", "cross_street")),
        *(func.coalesce(_OPENED.c[name], _RECEIVED.c[name]).label(name) for name in ("street", "town", "location")),
    ]
    page = (
        select(GAP, ENTRY.c.kind, LEAK.c.id.label("leak"), CALL.c.id.label("call"), *either, _ASIDE.c.reason)
        .select_from(GAP)
        .outerjoin(LEAK, LEAK.c.id == func.coalesce(_OF_A_DIG, GAP.c.subject_id))
        .outerjoin(CALL, CALL.c.id == GAP.c.subject_id)
        .outerjoin(_OPENED, _OPENED.c.id == LEAK.c.id)
        .outerjoin(_RECEIVED, _RECEIVED.c.id == CALL.c.id)
        .join(ENTRY, ENTRY.c.id == GAP.c.entry_id)
        .outerjoin(_ASIDE, _ASIDE.c.id == GAP.c.set_aside_by_id)
        .where(_seen(scope), *_conditions(asked))
        .order_by(key[0].desc(), key[1].desc(), key[2], key[3])
        .limit(most)
    )
    if after is not None:
        page = page.where(_after(after))
    return [_read(row) for row in tx.connection.execute(page)]


def gaps_by_code(scope: Scope, tx: Tx, *, asked: WantedGaps) -> dict[str, int]:
    """How many gaps of each code are asked for, whatever code is."""
    counted = (
        select(GAP.c.code, func.count().label("gaps"))
        .select_from(GAP)
        .outerjoin(LEAK, LEAK.c.id == func.coalesce(_OF_A_DIG, GAP.c.subject_id))
        .outerjoin(CALL, CALL.c.id == GAP.c.subject_id)
        .where(_seen(scope), *_conditions(asked, any_code=True))
        .group_by(GAP.c.code)
    )
    return {row.code: row.gaps for row in tx.connection.execute(counted)}


def _seen(scope: Scope) -> Any:
    """Whether the leak, or the call, on whose page it is told is in scope."""
    return or_(
        and_(LEAK.c.id.is_not(None), sees_leak(scope, LEAK)), and_(CALL.c.id.is_not(None), sees_call(scope, CALL))
    )


def _conditions(asked: WantedGaps, *, any_code: bool = False) -> list[Any]:
    aside = GAP.c.set_aside_by_id
    conditions: list[Any] = [aside.is_not(None) if asked.aside else aside.is_(None)]
    conditions += [GAP.c.code == asked.code] if asked.code and not any_code else []
    conditions += [GAP.c.area_id == asked.area] if asked.area else []
    conditions += [GAP.c.happened_on >= asked.from_on] if asked.from_on else []
    return conditions + ([GAP.c.happened_on <= asked.until_on] if asked.until_on else [])


def _after(edge: GapEdge) -> Any:
    same_entry = and_(GAP.c.happened_on == edge.on, GAP.c.entry_id == edge.entry)
    return or_(
        GAP.c.happened_on < edge.on,
        and_(GAP.c.happened_on == edge.on, GAP.c.entry_id < edge.entry),
        and_(same_entry, GAP.c.code > edge.code),
        and_(same_entry, GAP.c.code == edge.code, GAP.c.row_key > edge.row),
    )


def _read(row: Row[Any]) -> GapRow:
    return GapRow(
        code=row.code,
        leak=row.leak,
        call=row.call,
        entry=row.entry_id,
        row=row.row_key,
        facts=json.loads(row.facts),
        on=row.happened_on.isoformat(),
        kind=row.kind,
        why_aside=row.reason or "",
        area=row.area_id,
        number=row.number,
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
    )
