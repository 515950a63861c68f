"""Calls, newest first, a page at a time; and who watches which open leak."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Date, Row, Select, literal, or_, select, tuple_, union, union_all

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.queries.leaks import Edge
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, PERSON
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.seen import sees_call, sees_leak
from repairlog.records.tables.worked import CALL, LEAK, OUTSIDE_NUMBER, WATCH

NOT_ENDED = ("received", "sent", "on_way", "on_site")
"""The statuses of a call that somebody still has to bring to an end."""

WALKED_APART = 40
"""Areas or streets that are each walked by an index of their own; of more, one walk by day soon finds a page full."""

MOST_NUMBERED = 500
"""Calls with one number, of which more are not looked at."""

_RECEIVED = OF_KIND["call_received"]
_OPENED = OF_KIND["leak_opened"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedCalls:
    """Which calls are asked for; what is empty or None asks for nothing. `statuses`: one of these. `streets`: in one of
    these; an empty tuple asks for calls in no street there is. `from_on`, `until_on`: received from that day, until
    that day, both counted in. `number`: its own, or another's number for it, exactly."""

    area: UUID | None = None
    statuses: tuple[str, ...] = ()
    report: str = ""
    outcome: str = ""
    streets: tuple[UUID, ...] | None = None
    from_on: date | None = None
    until_on: date | None = None
    number: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CallRow:
    """A call in a list. The address as it was written. `received_at`: None where no hour is known. `who`: who has it,
    by name; empty where nobody was named. `outcome`: empty while it is not ended. `leak`, `leak_number`: the operator's
    leak that it opened or joined. `since`: the moment of the step that it stands at."""

    id: UUID
    number: str
    area: UUID
    status: str
    report: str
    inside: str
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str
    received_on: str
    received_at: datetime | None
    since: datetime | None
    who: str
    outcome: str
    leak: UUID | None
    leak_number: str
    reviewed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WatchRow:
    """A leak that somebody watches: who, since when, and by when the next reading is to be taken."""

    leak: UUID
    number: str
    area: UUID
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str
    who: str
    since_at: datetime | None
    next_reading_at: datetime | None


def calls(scope: Scope, tx: Tx, *, wanted: WantedCalls, beyond: Edge | None, most: int) -> list[CallRow]:
    """The calls in scope that are asked for, the newest first; at most `most` of them, beyond that edge."""
    if scope.sees_nothing or wanted.streets == ():
        return []
    bearing = _numbered(tx, wanted.number) if wanted.number else None
    if bearing == []:
        return []
    found = _together([_ordered(walk, beyond).limit(most) for walk in _walks(scope, wanted, bearing)])
    upwards = beyond is not None and beyond.towards == "newer"
    order = [each.asc() if upwards else each.desc() for each in (found.c.received_on, found.c.id)]
    page = _shown().join(found, found.c.id == CALL.c.id).order_by(*order).limit(most)
    rows = [_read(row) for row in tx.connection.execute(page)]
    return rows[::-1] if upwards else rows


def call_with_id(scope: Scope, tx: Tx, *, call: UUID) -> CallRow | None:
    """That call, where it is in scope."""
    row = tx.connection.execute(_shown().where(CALL.c.id == call, sees_call(scope, CALL))).one_or_none()
    return _read(row) if row else None


def calls_of_leak(scope: Scope, tx: Tx, *, leak: UUID) -> list[CallRow]:
    """The calls that opened that leak or joined it, the earliest first; one from which it was opened counts before its
    outcome is entered, too."""
    opened_it = select(_OPENED.c.from_call_id).where(_OPENED.c.id == leak).scalar_subquery()
    theirs = or_(CALL.c.leak_id == leak, CALL.c.id == opened_it)
    rows = _shown().where(theirs, sees_call(scope, CALL)).order_by(CALL.c.received_on, CALL.c.id)
    return [_read(row) for row in tx.connection.execute(rows)]


def calls_of_leaks(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> list[CallRow]:
    """The calls that opened one of these leaks or joined it, the newest first."""
    opened_it = select(_OPENED.c.from_call_id).where(_OPENED.c.id.in_(leaks), _OPENED.c.from_call_id.is_not(None))
    theirs = or_(CALL.c.leak_id.in_(leaks), CALL.c.id.in_(opened_it))
    rows = _shown().where(theirs, sees_call(scope, CALL)).order_by(CALL.c.received_on.desc(), CALL.c.id.desc())
    return [_read(row) for row in tx.connection.execute(rows)]


def watches(scope: Scope, tx: Tx) -> list[WatchRow]:
    """Every open leak in scope that somebody watches, the next reading first."""
    columns = (WATCH, LEAK.c.number, LEAK.c.house_number, LEAK.c.cross_street)
    where = (_OPENED.c.street, _OPENED.c.town, _OPENED.c.location)
    rows = (
        select(*columns, *where, PERSON.c.name.label("person"))
        .join(LEAK, LEAK.c.id == WATCH.c.leak_id)
        .join(_OPENED, _OPENED.c.id == WATCH.c.leak_id)
        .outerjoin(PERSON, PERSON.c.id == WATCH.c.person_id)
        .where(sees_leak(scope, LEAK))
        .order_by(WATCH.c.next_reading_at.is_(None), WATCH.c.next_reading_at, WATCH.c.leak_id)
    )
    return [_watch(row) for row in tx.connection.execute(rows)]


def _numbered(tx: Tx, number: str) -> list[UUID]:
    """The calls that bear that number: looked up first, else a database may walk all calls by day to find the one."""
    theirs = select(OUTSIDE_NUMBER.c.subject_id).where(OUTSIDE_NUMBER.c.search_key == search_key(number))
    own = select(CALL.c.id).where(CALL.c.number == number.upper())
    return list(tx.connection.execute(union(own, theirs).limit(MOST_NUMBERED)).scalars())


def _walks(scope: Scope, wanted: WantedCalls, bearing: Sequence[UUID] | None) -> list[Select[Any]]:
    """The walks that together give the page, each in the order of an index: by status, and by street or else by area.
    `bearing`: the calls that bear the number that is asked for."""
    if len(wanted.statuses) > 1:
        return [
            walk for status in wanted.statuses for walk in _walks(scope, replace(wanted, statuses=(status,)), bearing)
        ]
    keys = select(CALL.c.id, CALL.c.received_on).where(*_plainly(wanted))
    if bearing is not None:
        keys = keys.where(CALL.c.id.in_(bearing))
    some = scope.some_areas
    areas = (wanted.area,) if wanted.area else None if some is None else tuple(sorted(some))
    seen = sees_call(scope, CALL)
    if wanted.streets is not None and len(wanted.streets) <= WALKED_APART:
        apart = keys.where(seen, *([CALL.c.area_id == wanted.area] if wanted.area else []))
        return [apart.where(CALL.c.street_id == street) for street in wanted.streets]
    if wanted.streets is not None:
        keys = keys.where(CALL.c.street_id.in_(wanted.streets))
    if areas is None or len(areas) > WALKED_APART:
        return [keys.where(seen)]
    return [keys.where(seen, CALL.c.area_id == area) for area in areas]


def _plainly(wanted: WantedCalls) -> list[ColumnElement[bool]]:
    conditions: list[ColumnElement[bool]] = []
    if wanted.statuses:  # one: the walks go by each apart
        conditions.append(CALL.c.status == wanted.statuses[0])
    for column, text in ((CALL.c.report, wanted.report), (CALL.c.outcome, wanted.outcome)):
        conditions += [column == text] if text else []
    if wanted.from_on:
        conditions.append(CALL.c.received_on >= wanted.from_on)
    if wanted.until_on:
        conditions.append(CALL.c.received_on <= wanted.until_on)
    return conditions


def _ordered(walk: Select[Any], beyond: Edge | None) -> Select[Any]:
    place = tuple_(CALL.c.received_on, CALL.c.id)
    newest = walk.order_by(CALL.c.received_on.desc(), CALL.c.id.desc())
    if beyond is None:
        return newest
    edge = tuple_(literal(beyond.on, Date()), literal(beyond.id, Id()))
    if beyond.towards == "newer":
        return walk.where(place > edge).order_by(CALL.c.received_on, CALL.c.id)
    return newest.where(place < edge)


def _together(walks: Sequence[Select[Any]]) -> Any:
    if len(walks) == 1:
        return walks[0].subquery()
    return union_all(*(select(each.subquery()) for each in walks)).subquery()


def _shown() -> Select[Any]:
    received = (_RECEIVED.c.inside, _RECEIVED.c.street, _RECEIVED.c.town, _RECEIVED.c.location)
    names = (CREW.c.name.label("crew"), PERSON.c.name.label("person"), LEAK.c.number.label("leak_number"))
    return (
        select(CALL, *received, *names)
        .join(_RECEIVED, _RECEIVED.c.id == CALL.c.id)
        .outerjoin(CREW, CREW.c.id == CALL.c.crew_id)
        .outerjoin(PERSON, PERSON.c.id == CALL.c.person_id)
        .outerjoin(LEAK, LEAK.c.id == CALL.c.leak_id)
    )


def _read(row: Row[Any]) -> CallRow:
    steps = {"received": row.received_at, "sent": row.sent_at, "on_way": row.on_way_at, "on_site": row.on_site_at}
    return CallRow(
        id=row.id,
        number=row.number,
        area=row.area_id,
        status=row.status,
        report=row.report,
        inside=row.inside or "",
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
        received_on=row.received_on.isoformat(),
        received_at=row.received_at,
        since=steps.get(row.status, row.ended_at),
        who=", ".join(filter(None, (row.crew, row.person, row.named))),
        outcome=row.outcome or "",
        leak=row.leak_id,
        leak_number=row.leak_number or "",
        reviewed=row.reviewed,
    )


def _watch(row: Row[Any]) -> WatchRow:
    return WatchRow(
        leak=row.leak_id,
        number=row.number,
        area=row.area_id,
        house_number=row.house_number or "",
        street=row.street or "",
        cross_street=row.cross_street or "",
        town=row.town or "",
        location=row.location or "",
        who=", ".join(filter(None, (row.person, row.named))),
        since_at=row.since_at,
        next_reading_at=row.next_reading_at,
    )
