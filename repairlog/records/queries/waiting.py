"""What waits for a supervisor: repairs to accept, emergencies to review, and what came in after a leak was ended or a
repair accepted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Exists, Row, Select, and_, exists, func, literal, or_, select

from repairlog.access import Scope
from repairlog.entries.first_hour import EMERGENCY
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import AREA, ATTEMPT, CALL, LEAK

_OPENED, _TRIED, _REVIEWED = (OF_KIND[kind] for kind in ("leak_opened", "repair_attempted", "repair_reviewed"))
_CLOSING = ENTRY.alias("closing")
_LATER = ATTEMPT.alias("later")
_NOTED = OF_KIND["moment_noted"]
_AFTER, _NOTED_AFTER = ENTRY.alias("after"), _NOTED.alias("noted_after")


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingRow:
    """An entry on a leak that waits for somebody. `on`: its legal day; `kind`: of the entry. `outcome`, `method`: of an
    attempt, empty for others."""

    id: UUID
    leak: UUID
    kind: str
    on: str
    outcome: str
    method: str
    number: str
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str


def repairs_to_accept(scope: Scope, tx: Tx, *, most: int) -> list[WaitingRow]:
    """Attempts that no supervisor has accepted or returned, the oldest first. An old list's wait for nobody, nor does
    one that was not tight once another was made after it on the same source."""
    later = exists().where(
        _LATER.c.leak_id == ATTEMPT.c.leak_id,
        func.coalesce(_LATER.c.source_id, ATTEMPT.c.leak_id) == func.coalesce(ATTEMPT.c.source_id, ATTEMPT.c.leak_id),
        _LATER.c.number > ATTEMPT.c.number,
    )
    rows = (
        _on_leaks(scope, ATTEMPT.c.outcome, _TRIED.c.method)
        .join(ATTEMPT, ATTEMPT.c.id == ENTRY.c.id)
        .join(_TRIED, _TRIED.c.id == ENTRY.c.id)
        .join(LEAK, LEAK.c.id == ATTEMPT.c.leak_id)
        .join(_OPENED, _OPENED.c.id == LEAK.c.id)
        .where(ATTEMPT.c.review == "waiting", ENTRY.c.sure != "import")
        .where(or_(ATTEMPT.c.outcome != "not_tight", ~later))
        .order_by(ATTEMPT.c.attempted_on, ATTEMPT.c.id)
        .limit(most)
    )
    return [_read(row) for row in tx.connection.execute(rows)]


def came_in_after(scope: Scope, tx: Tx, *, since: datetime, most: int) -> list[WaitingRow]:
    """Entries that came in since then, after an ending or an acceptance of their leak that they happened before; the
    newest first."""
    accepted = exists().where(_REVIEWED.c.id == _CLOSING.c.id, _REVIEWED.c.outcome == "accepted")
    before = or_(
        ENTRY.c.happened_on < _CLOSING.c.happened_on,
        and_(ENTRY.c.happened_on == _CLOSING.c.happened_on, ENTRY.c.happened_at < _CLOSING.c.happened_at),
    )
    stood = exists().where(
        _CLOSING.c.subject_id == ENTRY.c.subject_id,
        _CLOSING.c.journal_index < ENTRY.c.journal_index,
        ~_CLOSING.c.void,
        or_(_CLOSING.c.kind == "leak_ended", and_(_CLOSING.c.kind == "repair_reviewed", accepted)),
        before,
    )
    rows = (
        _on_leaks(scope, literal("").label("outcome"), literal("").label("method"))
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .join(_OPENED, _OPENED.c.id == LEAK.c.id)
        .where(ENTRY.c.received_at >= since, ~ENTRY.c.void, ENTRY.c.sure != "import", stood)
        .where(ENTRY.c.kind.not_in(("corrected", "void")))
        .order_by(ENTRY.c.journal_index.desc())
        .limit(most)
    )
    return [_read(row) for row in tx.connection.execute(rows)]


def emergencies_to_review(scope: Scope, tx: Tx, *, most: int) -> list[WaitingRow]:
    """Emergencies that nobody has reviewed, at leaks that were made safe since, the oldest first: of each leak the
    moment of them that was entered first. Days count, not hours. A call of the leak that was accepted counts as a
    review; what happened before the cut-over day of the area, and what came with an old list, waits for nobody."""
    unreviewed = (
        select(func.min(ENTRY.c.journal_index).label("journal_index"))
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .join(_OPENED, _OPENED.c.id == LEAK.c.id)
        .join(AREA, AREA.c.id == LEAK.c.area_id)
        .where(sees_leak(scope, LEAK), LEAK.c.status != "opened_in_error", ~ENTRY.c.void, ENTRY.c.sure != "import")
        .where(ENTRY.c.id.in_(select(_NOTED.c.id).where(_NOTED.c.moment.in_(EMERGENCY))))
        .where(or_(AREA.c.cut_over_on.is_(None), ENTRY.c.happened_on >= AREA.c.cut_over_on))
        .where(
            _stands_after("moment_noted", _AFTER.c.id == _NOTED_AFTER.c.id, _NOTED_AFTER.c.moment == "area_made_safe")
        )
        .where(~_stands_after("emergency_reviewed"))
        .where(~exists().where(CALL.c.leak_id == LEAK.c.id, CALL.c.reviewed))
        .where(~exists().where(CALL.c.id == _OPENED.c.from_call_id, CALL.c.reviewed))
        .group_by(LEAK.c.id)
        .subquery("unreviewed")
    )
    rows = (
        _on_leaks(scope, literal("").label("outcome"), literal("").label("method"))
        .join(unreviewed, unreviewed.c.journal_index == ENTRY.c.journal_index)
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .join(_OPENED, _OPENED.c.id == LEAK.c.id)
        .order_by(ENTRY.c.happened_on, ENTRY.c.id)
        .limit(most)
    )
    return [_read(row) for row in tx.connection.execute(rows)]


def _stands_after(kind: str, *also: ColumnElement[bool]) -> Exists:
    """Whether an entry of that kind stands on the same leak that happened on the same day or later."""
    of_leak = (_AFTER.c.subject_id == ENTRY.c.subject_id, _AFTER.c.kind == kind)
    return exists().where(*of_leak, ~_AFTER.c.void, _AFTER.c.happened_on >= ENTRY.c.happened_on, *also)


def _on_leaks(scope: Scope, *also: Any) -> Select[Any]:
    of_leak = (LEAK.c.id.label("leak"), LEAK.c.number, LEAK.c.house_number, LEAK.c.cross_street)
    address = (_OPENED.c.street, _OPENED.c.town, _OPENED.c.location)
    return select(ENTRY.c.id, ENTRY.c.kind, ENTRY.c.happened_on, *of_leak, *address, *also).where(
        sees_leak(scope, LEAK)
    )


def _read(row: Row[Any]) -> WaitingRow:
    return WaitingRow(
        id=row.id,
        leak=row.leak,
        kind=row.kind,
        on=row.happened_on.isoformat(),
        outcome=row.outcome or "",
        method=row.method or "",
        number=row.number,
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
    )
