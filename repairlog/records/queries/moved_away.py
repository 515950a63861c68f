"""What was moved out of an area: whoever saw it there is told where it went, so that nothing is lost from a list
without a word."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Row, Select, and_, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, INSTRUMENT
from repairlog.records.tables.facts import OF_KIND, SUBJECT
from repairlog.records.tables.seen import saw_it_leave, sees_subject
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import AREA, CALL, DIG, LEAK, LOT, MOVED, PLACE

_SAID, _SHELF = OF_KIND["subject_moved"], OF_KIND["shelf_made"]
_FROM, _TO = AREA.alias("from_area"), AREA.alias("to_area")


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveEdge:
    """The move after which a page begins."""

    on: date
    entry: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedAway:
    """A move out of an area. `kind`: of what was moved; `called`: its number, its mark or its name, empty for a dig
    without a ticket. `reason`: in words, for who sees it still or sees the whole area that it left. `seen`: whether the
    asker may see it where it answers now."""

    entry: UUID
    subject: UUID
    kind: str
    called: str
    on: str
    from_area: str
    to_area: str
    reason: str
    seen: bool


def moved_away(scope: Scope, tx: Tx, *, after: MoveEdge | None, most: int, number: str = "") -> list[MovedAway]:
    """The moves of what the scope showed where it was, the newest first; at most `most`, after that one. `number`:
    those of leaks and calls whose number begins so."""
    page = _rows(scope).order_by(MOVED.c.moved_on.desc(), MOVED.c.entry_id.desc()).limit(most)
    if after is not None:
        older = and_(MOVED.c.moved_on == after.on, MOVED.c.entry_id < after.entry)
        page = page.where(or_(MOVED.c.moved_on < after.on, older))
    if number:
        begins = [each.c.number.startswith(number.upper(), autoescape=True) for each in (LEAK, CALL)]
        page = page.where(or_(*begins))
    return [_read(row) for row in tx.connection.execute(page)]


def last_moved_away(scope: Scope, tx: Tx, *, id: UUID) -> MovedAway | None:
    """The last move of that subject out of where the scope showed it; None where there is none."""
    last = _rows(scope).where(MOVED.c.subject_id == id).order_by(MOVED.c.number.desc()).limit(1)
    row = tx.connection.execute(last).one_or_none()
    return _read(row) if row else None


def _rows(scope: Scope) -> Select[Any]:
    seen = select(SUBJECT.c.id).where(SUBJECT.c.id == MOVED.c.subject_id, sees_subject(scope, SUBJECT))
    names = {
        "leak": LEAK.c.number,
        "call": CALL.c.number,
        "dig": DIG.c.ticket,
        "lot": LOT.c.lot_number,
        "crew": CREW.c.name,
        "instrument": INSTRUMENT.c.mark,
        "shelf": _SHELF.c.name,
        "place": PLACE.c.called,
    }
    rows = select(MOVED, SUBJECT.c.kind, _SAID.c.reason, _FROM.c.name.label("was"), _TO.c.name.label("is_now"))
    rows = rows.add_columns(
        *(column.label(f"{kind}_called") for kind, column in names.items()),
        PLACE.c.house_number,
        PLACE.c.street,
        seen.correlate(MOVED).exists().label("seen"),
        within(scope, MOVED.c.from_area_id).label("whole"),
    )
    around = rows.select_from(MOVED).join(SUBJECT, SUBJECT.c.id == MOVED.c.subject_id)
    around = around.join(_SAID, _SAID.c.id == MOVED.c.entry_id).join(_FROM, _FROM.c.id == MOVED.c.from_area_id)
    around = around.join(_TO, _TO.c.id == MOVED.c.to_area_id)
    for each in (LEAK, CALL, DIG, LOT, CREW, INSTRUMENT, _SHELF, PLACE):
        around = around.outerjoin(each, each.c.id == MOVED.c.subject_id)
    return around.where(saw_it_leave(scope, MOVED), MOVED.c.from_area_id != MOVED.c.to_area_id)


def _read(row: Row[Any]) -> MovedAway:
    called = getattr(row, f"{row.kind}_called") or " ".join(filter(None, (row.house_number, row.street)))
    return MovedAway(
        entry=row.entry_id,
        subject=row.subject_id,
        kind=row.kind,
        called=called,
        on=row.moved_on.isoformat(),
        from_area=row.was,
        to_area=row.is_now,
        reason=row.reason if row.seen or row.whole else "",
        seen=row.seen,
    )
