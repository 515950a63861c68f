"""The list of leaks, newest report first, a page at a time: never counted as a whole, never skipped through."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import (
    ColumnElement,
    Date,
    FromClause,
    Row,
    Select,
    Subquery,
    func,
    literal,
    or_,
    select,
    tuple_,
    union_all,
)

from repairlog.access import Scope
from repairlog.records.columns import Id
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND
from repairlog.records.tables.known_as import known_to_others_as
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.told_of_leaks import at_places, noted, repaired_by, within_period, work_of
from repairlog.records.tables.worked import GAP, LEAK

WALKED_APART = 40
"""Areas or streets that are each walked by an index of their own. Of more, every fortieth leak or so is one of them, so
a walk by day alone soon finds a page full."""

FEW = 500
"""Leaks with a number that begins so which are put in order at once; of more, a walk by day soon finds a page full."""

_OPENED = OF_KIND["leak_opened"]
_LAST = chr(0x10FFFF)
_SHOWN = (  # and no more: each id and each moment that is read is made into one
    LEAK.c.id,
    LEAK.c.number,
    LEAK.c.area_id,
    LEAK.c.grade_now,
    LEAK.c.rank_now,
    LEAK.c.house_number,
    _OPENED.c.street,
    LEAK.c.cross_street,
    _OPENED.c.town,
    _OPENED.c.location,
    LEAK.c.status,
    LEAK.c.reported_on,
    ENTRY.c.happened_known,
    LEAK.c.ended_how,
    LEAK.c.ended_on,
    LEAK.c.attempts,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which leaks are asked for; what is empty or None asks for nothing.

    `area`: of that area. `status`, `grade`: exactly. `streets`: in one of these; an empty tuple asks for leaks in no
    street there is. `from_on`, `until_on`: from that day, until that day, both counted in: the day of what `by` names,
    `reported`, `repaired` (any attempt) or `ended`. `number`: its number or the beginning of it, or a number that
    others know it by, or one of its digs, its sources or the place they are at; that one whole, capitals and signs
    between its parts or not. `crew`: that was given work there, or of which somebody did something there. `method`:
    part of the name of a repair's method. `places`: of which a source is at one of these. `notes`: words that stand in
    one note; every note of the leaks asked for otherwise is read for them, so that whoever asks narrows those first.
    """

    area: UUID | None = None
    status: str = ""
    grade: str = ""
    streets: tuple[UUID, ...] | None = None
    from_on: date | None = None
    until_on: date | None = None
    number: str = ""
    by: str = "reported"
    crew: UUID | None = None
    method: str = ""
    places: tuple[UUID, ...] = ()
    notes: str = ""


@dataclass(frozen=True, slots=True)
class Edge:
    """Where a page ended: the next one begins beyond it, with the `older` or the `newer` ones."""

    on: date
    id: UUID
    towards: str = "older"


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakRow:
    """A leak in a list. `grade`, `rank`: as it is now; empty, None where none was set or no rank is known. The address
    as it was written. `reported_on`: the day of the report; `reported_known`: on_or_before where a list gives none.
    `ended_how`, `ended_on`: empty while it is open. `gaps`: how many there are that were not set aside."""

    id: UUID
    number: str
    area: UUID
    grade: str
    rank: int | None
    house_number: str
    street: str
    cross_street: str
    town: str
    location: str
    status: str
    reported_on: str
    reported_known: str
    ended_how: str
    ended_on: str
    attempts: int
    gaps: int


def leaks(scope: Scope, tx: Tx, *, where: Wanted, beyond: Edge | None, most: int) -> list[LeakRow]:
    """The leaks in scope that are asked for, the newest report first; at most `most` of them, beyond that edge."""
    areas = _areas(scope, where.area)
    if areas == () or where.streets == ():
        return []
    walk = _numbered(scope, tx, areas, where) if where.number else None
    if where.number and walk is None:
        return []
    page = (
        _page([walk], beyond=beyond, most=most)
        if walk is not None
        else _by_day(tx.dialect, _apart(scope), areas, where, beyond, most)
    )
    rows = [_read(row) for row in tx.connection.execute(page)]
    return rows[::-1] if beyond and beyond.towards == "newer" else rows


def how_many_leaks(scope: Scope, tx: Tx, *, where: Wanted) -> int:
    """How many leaks in scope are asked for."""
    areas = _areas(scope, where.area)
    if areas == () or where.streets == ():
        return 0
    walk = _numbered(scope, tx, areas, where) if where.number else None
    if where.number and walk is None:
        return 0
    walks = [walk] if walk is not None else _walks(tx.dialect, _apart(scope), areas, where)
    return sum(tx.connection.execute(select(func.count()).select_from(each.subquery())).scalar_one() for each in walks)


def leak_with_id(scope: Scope, tx: Tx, *, leak: UUID) -> LeakRow | None:
    """That leak, where it is in scope."""
    return next(iter(leaks_with(scope, tx, ids=[leak])), None)


def leaks_with(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[LeakRow]:
    """Those of these leaks that are in scope, the newest report first."""
    areas = _areas(scope, None)
    if areas == () or not ids:
        return []
    seen = _seen(_apart(scope), LEAK)
    these = _keys(LEAK).where(LEAK.c.id.in_(ids), *_among(tx.dialect, LEAK.c.area_id, areas), *seen)
    return [_read(row) for row in tx.connection.execute(_page([these], beyond=None, most=len(ids)))]


def _areas(scope: Scope, asked: UUID | None) -> tuple[UUID, ...] | None:
    """The areas that are looked at, None for all of them: those of which the scope sees anything, narrowed to the one
    that is asked for."""
    some = scope.some_areas
    if asked is not None:
        return (asked,) if some is None or asked in some else ()
    return None if some is None else tuple(sorted(some))


def _apart(scope: Scope) -> Scope | None:
    """The scope, where areas alone do not say what it sees."""
    return scope if scope.parts and not scope.every_area else None


def _seen(scope: Scope | None, of: FromClause) -> list[ColumnElement[bool]]:
    return [sees_leak(scope, of)] if scope else []


def _keys(of: FromClause) -> Select[Any]:
    return select(of.c.id, of.c.reported_on)


@lru_cache(maxsize=128)  # the same few pages are asked for over and over, and building one takes as long as reading it
def _by_day(
    dialect: str,
    scope: Scope | None,
    areas: tuple[UUID, ...] | None,
    where: Wanted,
    beyond: Edge | None,
    most: int,
) -> Select[Any]:
    """The page of those walks that together give it, each in the order of an index."""
    return _page(_walks(dialect, scope, areas, where), beyond=beyond, most=most)


def _walks(dialect: str, scope: Scope | None, areas: Sequence[UUID] | None, where: Wanted) -> list[Select[Any]]:
    wanted = _keys(LEAK).where(*_plainly(LEAK, where), *_seen(scope, LEAK))
    if where.streets is not None:
        return _each_apart(
            dialect, wanted.where(*_among(dialect, LEAK.c.area_id, areas)), LEAK.c.street_id, where.streets
        )
    return _each_apart(dialect, wanted, LEAK.c.area_id, areas)


def _numbered(scope: Scope, tx: Tx, areas: Sequence[UUID] | None, where: Wanted) -> Select[Any] | None:
    """Of few leaks with such a number, all of them are taken and put in order; of many, those that a walk by day meets
    first. None where there is none."""
    texts = list(dict.fromkeys((where.number, where.number.upper())))
    begins = or_(*(_begins(tx.dialect, LEAK.c.number, each) for each in texts))
    ids = {*tx.connection.execute(select(LEAK.c.id).where(begins).limit(FEW + 1)).scalars()}
    others = {*tx.connection.execute(known_to_others_as(where.number)).scalars()}
    if not ids and not others:
        return None
    of: FromClause = LEAK
    if len(ids) <= FEW:
        # taken first and then asked, else a database may walk all leaks by day to find these few
        of = select(LEAK).where(LEAK.c.id.in_(ids | others)).cte("numbered").prefix_with("MATERIALIZED")
        bearing: list[ColumnElement[bool]] = []
    else:
        many = [_begins(tx.dialect, _looked_at(tx.dialect, LEAK.c.number), each) for each in texts]
        bearing = [or_(*many, _looked_at(tx.dialect, LEAK.c.id).in_(others)) if others else or_(*many)]
    among = [*_among(tx.dialect, of.c.area_id, areas), *_among(tx.dialect, of.c.street_id, where.streets)]
    return _keys(of).where(*_plainly(of, where), *bearing, *among, *_seen(_apart(scope), of))


def _plainly(of: FromClause, where: Wanted) -> list[ColumnElement[bool]]:
    conditions: list[ColumnElement[bool]] = []
    if where.status:
        conditions.append(of.c.status == where.status)
    if where.grade:
        conditions.append(of.c.grade_now == where.grade)
    conditions += within_period(of, by=where.by, from_on=where.from_on, until_on=where.until_on)
    if where.crew:
        conditions.append(work_of(of, crew=where.crew))
    if where.method:
        conditions.append(repaired_by(of, method=where.method))
    if where.places:
        conditions.append(at_places(of, where.places))
    if where.notes:
        conditions.append(noted(of, words=where.notes))
    return conditions


def _each_apart(
    dialect: str, wanted: Select[Any], column: ColumnElement[Any], ids: Sequence[UUID] | None
) -> list[Select[Any]]:
    if ids is not None and len(ids) <= WALKED_APART:
        return [wanted.where(column == each) for each in ids]
    return [wanted.where(*_among(dialect, column, ids))]


def _among(dialect: str, column: ColumnElement[Any], ids: Sequence[UUID] | None) -> list[ColumnElement[bool]]:
    return [] if ids is None else [_looked_at(dialect, column).in_(ids)]


def _looked_at(dialect: str, column: ColumnElement[Any]) -> ColumnElement[Any]:
    """A column that is only to be looked at row by row. SQLite does not know how rows are spread: wherever some index
    bears the column it would go by that, and put in order whatever it finds."""
    return func.coalesce(column, column) if dialect == "sqlite" else column


def _begins(dialect: str, number: ColumnElement[Any], typed: str) -> ColumnElement[bool]:
    """A range on SQLite, which compares bytes; on PostgreSQL a pattern, which holds in whatever order its texts are."""
    if dialect == "postgresql":
        return number.startswith(typed, autoescape=True)
    return number.between(typed, typed + _LAST)


def _ordered(walk: Select[Any], beyond: Edge | None) -> Select[Any]:
    id, on = walk.selected_columns
    place = tuple_(on, id)
    if beyond is None:
        return walk.order_by(on.desc(), id.desc())
    edge = tuple_(literal(beyond.on, Date()), literal(beyond.id, Id()))
    if beyond.towards == "newer":
        return walk.where(place > edge).order_by(on, id)
    return walk.where(place < edge).order_by(on.desc(), id.desc())


def _page(walks: Sequence[Select[Any]], *, beyond: Edge | None, most: int) -> Select[Any]:
    """The rows of the first `most` among what the walks find beyond that edge."""
    found = _together([_ordered(each, beyond).limit(most) for each in walks])
    stand = (GAP.c.subject_id == LEAK.c.id, GAP.c.set_aside_by_id.is_(None))
    gaps = select(func.count()).where(*stand).scalar_subquery()
    upwards = beyond is not None and beyond.towards == "newer"
    order = [each.asc() if upwards else each.desc() for each in (found.c.reported_on, found.c.id)]
    return (
        select(*_SHOWN, gaps.label("gaps"))
        .select_from(found)
        .join(LEAK, LEAK.c.id == found.c.id)
        .join(_OPENED, _OPENED.c.id == found.c.id)
        .join(ENTRY, ENTRY.c.id == found.c.id)
        .order_by(*order)
        .limit(most)
    )


def _together(walks: Sequence[Select[Any]]) -> Subquery:
    if len(walks) == 1:
        return walks[0].subquery()
    return union_all(*(select(each.subquery()) for each in walks)).subquery()


def _read(row: Row[Any]) -> LeakRow:
    """The row as it is handed out; taken apart at once, since a page has fifty of them."""
    cells: Any = tuple(row)
    id, number, area, grade, rank, house, street, cross, town, location, status, on, known, how, end, done, gaps = cells
    return LeakRow(
        id=id,
        number=number,
        area=area,
        grade=grade or "",
        rank=rank,
        house_number=house or "",
        street=street or "",
        cross_street=cross or "",
        town=town or "",
        location=location or "",
        status=status,
        reported_on=on.isoformat(),
        reported_known=known or "",
        ended_how=how or "",
        ended_on=end.isoformat() if end else "",
        attempts=done,
        gaps=gaps,
    )
