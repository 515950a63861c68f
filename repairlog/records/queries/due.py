"""What is owed of leaks and digs: a list, what is late first, then by day; and what would be owed and has no day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Date, Row, Select, and_, case, exists, func, literal, or_, select, tuple_

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.store import Tx
from repairlog.records.tables.due import DUE_ITEM
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.in_hand import held_by
from repairlog.records.tables.known_as import known_to_others_as
from repairlog.records.tables.made_one import is_one_of
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import LEAK, WORK

_OPENED = OF_KIND["leak_opened"]
_KEY = (DUE_ITEM.c.subject_id, DUE_ITEM.c.adopted_id, DUE_ITEM.c.rule, DUE_ITEM.c.graded_id, DUE_ITEM.c.counted_id)
_OF_LEAK = (
    *(LEAK.c.number, LEAK.c.status, LEAK.c.grade_now, LEAK.c.rank_now, LEAK.c.house_number, LEAK.c.cross_street),
    *(_OPENED.c.street, _OPENED.c.town, _OPENED.c.location),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Like:
    """What somebody typed to find leaks by. `text`: a number of the leak or the beginning of it, or a number by which
    others know it. `house`, `streets`: or its address: that house number, where one was typed, in one of the streets
    that the rest names."""

    text: str
    house: str = ""
    streets: tuple[UUID, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DayCount:
    """How many items are owed by a day. `late`: they are past their limit."""

    on: date
    late: bool
    items: int


Days = Mapping[UUID, date]
"""Today's day in areas where it is another one than elsewhere."""


NO_DAYS: Days = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedDue:
    """Which items are asked for: what is empty or None asks for nothing. `late`: only those that are late. `until_on`:
    due on that day or before it. `grade`: for which they are owed. `number`: a leak's number or the beginning of it;
    `streets`: in one of these, an empty tuple asks for none. `like`: of leaks that are found by what somebody typed.
    `crew`: of leaks on which that crew has work in hand; `person`: that person or a crew that they belong to on the day
    `person_on`; `nobody`: nobody has any."""

    area: UUID | None = None
    task: str = ""
    grade: str = ""
    number: str = ""
    streets: tuple[UUID, ...] | None = None
    until_on: date | None = None
    late: bool = False
    like: Like | None = None
    crew: UUID | None = None
    person: UUID | None = None
    person_on: date | None = None
    nobody: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DueEdge:
    """The item after which a page begins: `late` or not, its day, and its key."""

    late: bool
    on: date
    key: tuple[UUID, UUID, str, UUID, UUID]


@dataclass(frozen=True, slots=True, kw_only=True)
class DueRow:
    """One thing owed. `subject`: the leak or dig that owes it; `leak`: the leak, of a dig the first it serves, None
    where it serves none. `counted`: the entry from which it is counted. `firm`: its day is a limit, else it is proposed
    and never late. `late`: it is past its limit. `due_on`, `due_at`, `not_before`, `target_on`: days `YYYY-MM-DD`, the
    moment where it is owed in hours. `grade`, `rank`: for which it is owed; `clause`, `mark`, `rule`: what asks for it,
    empty for a restoration. `settled_on`, `settled_by`: empty while it is owed. `number` and the address, `status` and
    `grade_now`, `rank_now`: of the leak. `edge`: where a page that ends here goes on."""

    subject: UUID
    leak: UUID | None
    counted: UUID
    area: UUID
    task: str
    rule: str
    clause: str
    mark: str
    firm: bool
    late: bool
    grade: str
    rank: int | None
    counted_from: str
    counted_on: date
    governed_by: str
    due_on: date
    due_at: datetime | None
    not_before: date | None
    target_on: date | None
    until: str
    settled_on: date | None
    settled_by: str
    number: str
    status: str
    grade_now: str
    rank_now: int | None
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str
    edge: DueEdge


def due(
    scope: Scope,
    tx: Tx,
    *,
    on: date,
    at: datetime,
    owing: WantedDue,
    after: DueEdge | None,
    most: int,
    days: Days = NO_DAYS,
) -> list[DueRow]:
    """What is owed in scope on that day, at that moment: what is late first, then by day; at most `most`, after that
    one. By the rulebook that holds on that day. `days`: areas in which it is another day."""
    if owing.streets == ():
        return []
    late = _is_late(on=_day(DUE_ITEM, on, days=days), at=at)
    owed = _owed(_day(DUE_ITEM, on, days=days))
    page = _rows(late).where(_seen(scope), *owed, *_conditions(owing, late))
    if after is not None:
        page = page.where(_after(after, late))
    page = page.order_by(_first_late(late), DUE_ITEM.c.due_on, *_KEY).limit(most)
    return [_read(row) for row in tx.connection.execute(page)]


def due_by_day(
    scope: Scope, tx: Tx, *, on: date, at: datetime, owing: WantedDue, days: Days = NO_DAYS
) -> list[DayCount]:
    """How many such items are owed by each day, by day, what is late apart."""
    if owing.streets == ():
        return []
    today = _day(DUE_ITEM, on, days=days)
    late = _is_late(on=today, at=at)
    counted = (
        select(DUE_ITEM.c.due_on, _first_late(late).label("in_time"), func.count().label("items"))
        .outerjoin(LEAK, LEAK.c.id == DUE_ITEM.c.leak_id)
        .where(_seen(scope), *_owed(today), *_conditions(owing, late))
        .group_by(DUE_ITEM.c.due_on, "in_time")
        .order_by(DUE_ITEM.c.due_on, "in_time")
    )
    rows = tx.connection.execute(counted)
    return [DayCount(on=row.due_on, late=row.in_time == 0, items=row.items) for row in rows]


def how_many_due(scope: Scope, tx: Tx, *, on: date, at: datetime, owing: WantedDue) -> int:
    """How many such items are owed."""
    if owing.streets == ():
        return 0
    counted = (
        select(func.count())
        .select_from(DUE_ITEM)
        .outerjoin(LEAK, LEAK.c.id == DUE_ITEM.c.leak_id)
        .where(
            _seen(scope),
            *_owed(literal(on, Date())),
            *_conditions(owing, _is_late(on=literal(on, Date()), at=at)),
        )
    )
    return int(tx.connection.execute(counted).scalar_one())


def _day(table: Any, on: date, *, days: Days) -> ColumnElement[date]:
    """Today's day, row by row where areas have not the same."""
    others = [(table.c.area_id == area, literal(day, Date())) for area, day in days.items() if day != on]
    return case(*others, else_=literal(on, Date())) if others else literal(on, Date())


def _is_late(*, on: ColumnElement[date], at: datetime) -> ColumnElement[bool]:
    """Whether a row is past its limit; a proposed day is none. What is owed in hours is late from its moment on."""
    past = or_(DUE_ITEM.c.due_on < on, and_(DUE_ITEM.c.due_at.is_not(None), DUE_ITEM.c.due_at < at))
    return and_(DUE_ITEM.c.firm, DUE_ITEM.c.settled_on.is_(None), past)


def _holds(table: Any, on: ColumnElement[date]) -> list[ColumnElement[bool]]:
    return [
        or_(table.c.from_on.is_(None), table.c.from_on <= on),
        or_(table.c.until_on.is_(None), table.c.until_on >= on),
    ]


def _owed(on: ColumnElement[date]) -> list[ColumnElement[bool]]:
    return [DUE_ITEM.c.settled_on.is_(None), *_holds(DUE_ITEM, on)]


def _first_late(late: ColumnElement[bool]) -> ColumnElement[int]:
    return case((late, 0), else_=1)


def _rows(late: ColumnElement[bool]) -> Select[Any]:
    return (
        select(DUE_ITEM, _first_late(late).label("in_time"), *_OF_LEAK)
        .outerjoin(LEAK, LEAK.c.id == DUE_ITEM.c.leak_id)
        .outerjoin(_OPENED, _OPENED.c.id == DUE_ITEM.c.leak_id)
    )


def _conditions(owing: WantedDue, late: ColumnElement[bool]) -> list[ColumnElement[bool]]:
    conditions: list[ColumnElement[bool]] = []
    conditions += [_in_hand(held_by(owing.person, on=owing.person_on))] if owing.person and owing.person_on else []
    conditions += [DUE_ITEM.c.area_id == owing.area] if owing.area else []
    conditions += [DUE_ITEM.c.task == owing.task] if owing.task else []
    conditions += [DUE_ITEM.c.grade == owing.grade] if owing.grade else []
    conditions += [DUE_ITEM.c.due_on <= owing.until_on] if owing.until_on else []
    conditions += [LEAK.c.street_id.in_(owing.streets)] if owing.streets is not None else []
    conditions += [late] if owing.late else []
    conditions += [_alike(owing.like)] if owing.like else []
    conditions += [~_in_hand()] if owing.nobody else []
    conditions += [_in_hand(is_one_of(WORK.c.crew_id, [owing.crew]))] if owing.crew else []
    if owing.number:
        begins = [LEAK.c.number.startswith(each, autoescape=True) for each in (owing.number, owing.number.upper())]
        conditions.append(or_(*begins))
    return conditions


def _in_hand(*by: ColumnElement[bool]) -> ColumnElement[bool]:
    """Whether somebody has work in hand on the item's leak."""
    return exists().where(WORK.c.leak_id == DUE_ITEM.c.leak_id, *by)


def _alike(like: Like) -> ColumnElement[bool]:
    begins = [LEAK.c.number.startswith(each, autoescape=True) for each in dict.fromkeys((like.text, like.text.upper()))]
    ways = [*begins, DUE_ITEM.c.leak_id.in_(known_to_others_as(like.text))]
    if like.streets:
        at_house = [func.lower(LEAK.c.house_number) == like.house.lower()] if like.house else []
        ways.append(and_(LEAK.c.street_id.in_(like.streets), *at_house))
    return or_(*ways)


def _after(edge: DueEdge, late: ColumnElement[bool]) -> ColumnElement[bool]:
    place = tuple_(_first_late(late), DUE_ITEM.c.due_on, *_KEY)
    subject, adopted, rule, graded, counted = edge.key
    ids = [literal(each, Id()) for each in (subject, adopted, graded, counted)]
    return place > tuple_(0 if edge.late else 1, literal(edge.on, Date()), *ids[:2], literal(rule), *ids[2:])


def _read(row: Row[Any]) -> DueRow:
    key = (row.subject_id, row.adopted_id, row.rule, row.graded_id, row.counted_id)
    return DueRow(
        subject=row.subject_id,
        leak=row.leak_id,
        counted=row.counted_id,
        area=row.area_id,
        task=row.task,
        rule=row.rule,
        clause=row.clause or "",
        mark=row.mark or "",
        firm=row.firm,
        late=row.in_time == 0,
        grade=row.grade or "",
        rank=row.rank,
        counted_from=row.counted_from,
        counted_on=row.counted_on,
        governed_by=row.governed_by or "",
        due_on=row.due_on,
        due_at=row.due_at,
        not_before=row.not_before,
        target_on=row.target_on,
        until=row.until,
        settled_on=row.settled_on,
        settled_by=row.settled_by or "",
        number=row.number or "",
        status=row.status or "",
        grade_now=row.grade_now or "",
        rank_now=row.rank_now,
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
        edge=DueEdge(late=row.in_time == 0, on=row.due_on, key=key),
    )


def _seen(scope: Scope) -> ColumnElement[bool]:
    """Those of the scope's areas; of a part, those of its leaks, which the query joins."""
    whole = within(scope, DUE_ITEM.c.area_id)
    return or_(whole, sees_leak(scope, LEAK)) if scope.parts else whole
