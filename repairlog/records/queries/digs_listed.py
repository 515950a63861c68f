"""Digs in a list, the newest first: for which leaks, what was found, how they stand, what is owed for them."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Date, exists, literal, or_, select, tuple_

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.queries.leaks import Edge
from repairlog.records.store import Tx
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import DIG, DIG_SERVES, LEAK, OUTSIDE_NUMBER

STATUSES = ("open", "backfilled", "restored", "opened_in_error")

_OPENED = OF_KIND["dig_opened"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedDigs:
    """Which digs are asked for; what is empty or None asks for nothing. `number`: a ticket, a permit, or the number of
    a leak that it serves. `owed`: those alone for which a restoration is owed."""

    area: UUID | None = None
    status: str = ""
    found: str = ""
    number: str = ""
    owed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedDig:
    """A dig. `leaks`: the numbers of those in scope that it serves; `leak`: one of them, None where there is none.
    `found`: empty while nobody said. `owed`: restorations that are owed and not done; `owed_by_on`: the first day."""

    id: UUID
    area: UUID
    opened_on: str
    leak: UUID | None
    leaks: tuple[str, ...]
    location: str
    status: str
    found: str
    ticket: str
    backfilled_on: str
    owed: int
    owed_by_on: str


def digs_listed(scope: Scope, tx: Tx, *, digging: WantedDigs, beyond: Edge | None, most: int) -> list[ListedDig]:
    """The digs in scope that are asked for, the newest first; at most `most`, the older ones beyond that edge."""
    if scope.sees_nothing:
        return []
    page = select(DIG, _OPENED.c.location).join(_OPENED, _OPENED.c.id == DIG.c.id).where(*_asked(scope, digging))
    if beyond is not None:
        edge = tuple_(literal(beyond.on, Date()), literal(beyond.id, Id()))
        page = page.where(tuple_(DIG.c.opened_on, DIG.c.id) < edge)
    rows = tx.connection.execute(page.order_by(DIG.c.opened_on.desc(), DIG.c.id.desc()).limit(most)).all()
    serves: defaultdict[UUID, list[tuple[str, UUID]]] = defaultdict(list)
    their = (
        select(DIG_SERVES.c.dig_id, LEAK.c.number, LEAK.c.id)
        .join(LEAK, LEAK.c.id == DIG_SERVES.c.leak_id)
        .where(DIG_SERVES.c.dig_id.in_([row.id for row in rows]), sees_leak(scope, LEAK))
        .order_by(LEAK.c.number)
    )
    for dig, number, leak in tx.connection.execute(their):
        serves[dig].append((number, leak))
    return [_read(row, serves[row.id]) for row in rows]


def _asked(scope: Scope, digging: WantedDigs) -> list[ColumnElement[bool]]:
    seen = exists().where(DIG_SERVES.c.dig_id == DIG.c.id, DIG_SERVES.c.leak_id == LEAK.c.id, sees_leak(scope, LEAK))
    found = [or_(within(scope, DIG.c.area_id), seen)]
    found += [DIG.c.area_id == digging.area] if digging.area else []
    found += [DIG.c.status == digging.status] if digging.status else []
    found += [DIG.c.found == digging.found] if digging.found else []
    found += [DIG.c.owed > 0] if digging.owed else []
    if digging.number:
        known = OUTSIDE_NUMBER.c.search_key == search_key(digging.number)
        bears = exists().where(OUTSIDE_NUMBER.c.subject_id == DIG.c.id, known)
        served = (DIG_SERVES.c.dig_id == DIG.c.id, DIG_SERVES.c.leak_id == LEAK.c.id)
        found.append(or_(bears, exists().where(*served, LEAK.c.number == digging.number.upper())))
    return found


def _read(row: Any, serves: list[tuple[str, UUID]]) -> ListedDig:
    return ListedDig(
        id=row.id,
        area=row.area_id,
        opened_on=row.opened_on.isoformat(),
        leak=serves[0][1] if serves else None,
        leaks=tuple(number for number, _leak in serves),
        location=row.location or "",
        status=row.status,
        found=row.found or "",
        ticket=row.ticket or "",
        backfilled_on=row.backfilled_on.isoformat() if row.backfilled_on else "",
        owed=row.owed,
        owed_by_on=row.owed_by_on.isoformat() if row.owed_by_on else "",
    )
