"""What leaks rest on, seen from the other side: which repairs a person's qualification bears, which readings and tests
an instrument's calibration."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import Select, and_, func, literal, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_ROWS
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import GAP, LEAK

_PEOPLE = OF_ROWS["repair_attempted", "people"]
_USED_AS = ("instrument_used", "readings.instrument_used")


@dataclass(frozen=True, slots=True, kw_only=True)
class RestingRow:
    """An entry of a leak that rests on something. `what`: the task that was done, or the kind of entry; `gap`: the code
    of what does not hold up because of it, empty where nothing is raised or it was set aside."""

    leak: UUID
    number: str
    entry: UUID
    on: str
    what: str
    gap: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DoneRow:
    """How often a person did a task, and when last. `task`: as it was written."""

    task: str
    times: int
    last_on: str


def work_of(scope: Scope, tx: Tx, *, people: Collection[UUID], most: int) -> list[RestingRow]:
    """The covered tasks that one of these people, or records of one, did at repairs of leaks in scope, the newest
    first; at most `most`."""
    raised = and_(GAP.c.row_key == literal("people.") + _PEOPLE.c.key, GAP.c.code == "qualification_not_on_the_books")
    rows = (
        _of_leaks(scope, _PEOPLE.c.task.label("what"))
        .select_from(_PEOPLE)
        .join(ENTRY, ENTRY.c.id == _PEOPLE.c.entry_id)
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .outerjoin(GAP, and_(GAP.c.entry_id == ENTRY.c.id, GAP.c.set_aside_by_id.is_(None), raised))
        .where(_PEOPLE.c.person_id.in_(people), _PEOPLE.c.task.is_not(None))
    )
    return _read(tx.connection.execute(_newest(rows, most)))


def done_by(scope: Scope, tx: Tx, *, people: Collection[UUID]) -> list[DoneRow]:
    """The covered tasks that these people, or records of one, did at repairs of leaks in scope: how often each, and
    when last."""
    rows = (
        select(_PEOPLE.c.task, func.count().label("times"), func.max(ENTRY.c.happened_on).label("last_on"))
        .join(ENTRY, ENTRY.c.id == _PEOPLE.c.entry_id)
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .where(_PEOPLE.c.person_id.in_(people), _PEOPLE.c.task.is_not(None), ~ENTRY.c.void, sees_leak(scope, LEAK))
        .group_by(_PEOPLE.c.task)
        .order_by(_PEOPLE.c.task)
    )
    return [
        DoneRow(task=row.task, times=row.times, last_on=row.last_on.isoformat()) for row in tx.connection.execute(rows)
    ]


def uses_of(scope: Scope, tx: Tx, *, instruments: Collection[UUID], most: int) -> list[RestingRow]:
    """The entries of leaks in scope for which one of these instruments, or records of one, was used, the newest first;
    at most `most`."""
    used = select(ABOUT.c.entry_id).where(ABOUT.c.subject_id.in_(instruments), ABOUT.c.as_what.in_(_USED_AS))
    rows = (
        _of_leaks(scope, ENTRY.c.kind.label("what"))
        .select_from(ENTRY)
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .outerjoin(
            GAP,
            and_(
                GAP.c.entry_id == ENTRY.c.id,
                GAP.c.code == "calibration_not_on_the_books",
                GAP.c.set_aside_by_id.is_(None),
            ),
        )
        .where(ENTRY.c.id.in_(used))
        .distinct()
    )
    return _read(tx.connection.execute(_newest(rows, most)))


def _of_leaks(scope: Scope, what: Any) -> Select[Any]:
    return select(
        LEAK.c.id.label("leak"),
        LEAK.c.number,
        ENTRY.c.id.label("entry"),
        ENTRY.c.happened_on.label("on"),
        what,
        GAP.c.code.label("gap"),
    ).where(~ENTRY.c.void, sees_leak(scope, LEAK))


def _newest(rows: Select[Any], most: int) -> Select[Any]:
    return rows.order_by(ENTRY.c.happened_on.desc(), ENTRY.c.id.desc()).limit(most)


def _read(found: Iterable[Any]) -> list[RestingRow]:
    return [
        RestingRow(
            leak=row.leak,
            number=row.number,
            entry=row.entry,
            on=row.on.isoformat(),
            what=row.what,
            gap=row.gap or "",
        )
        for row in found
    ]
