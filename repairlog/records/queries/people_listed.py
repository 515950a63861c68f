"""People and crews as a list of them asks: who they are, what they may do, which crew they are in, and for what tasks
they are qualified on a day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, and_, exists, func, or_, select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, CREW_MEMBER, PERSON, QUALIFICATION, ROLE
from repairlog.records.tables.known_as import bears_number
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.seen import sees_person
from repairlog.records.tables.within import within
from repairlog.trade.person import Qualification


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedPeople:
    """Which people are asked for: empty or None asks for nothing. `on`: the day whose roles, crews and qualifications
    count. `name`, `company`, `task`: a part of it; `name`: or an outside number, the whole of it. `qualified`: `valid`,
    `ends_soon` (until `soon_until`), `lapsed` or `none`, of the `task` where one is given. `left`: those who left
    before that day, instead of the others."""

    on: date
    soon_until: date
    name: str = ""
    area: UUID | None = None
    role: str = ""
    company: str = ""
    crew: UUID | None = None
    task: str = ""
    qualified: str = ""
    left: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPerson:
    """A person on the books. `company`: empty for the operator's own; `left_on`: the last day, empty while there is
    none."""

    id: UUID
    name: str
    company: str
    staff_number: str
    left_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InCrew:
    """Somebody in a crew from a day to a day, both counted in; `until_on` empty: open."""

    person: UUID
    crew: UUID
    name: str
    from_on: str
    until_on: str


def people_listed(
    scope: Scope, tx: Tx, *, asked: WantedPeople, after: tuple[str, UUID] | None, most: int
) -> list[ListedPerson]:
    """The people that are asked for, by name; at most `most`, after that name and id. For a scope of areas those who
    have a role there or in every area, and those who have none at all; for one of a company's work, its people. Of two
    records that were made one only the one that is kept."""
    if scope.sees_nothing:
        return []
    rows = select(PERSON).where(
        ~PERSON.c.void, PERSON.c.id.not_in(stood_for()), sees_person(scope), *_conditions(asked)
    )
    if after is not None:
        name, id = after
        rows = rows.where(or_(PERSON.c.name > name, and_(PERSON.c.name == name, PERSON.c.id > id)))
    found = tx.connection.execute(rows.order_by(PERSON.c.name, PERSON.c.id).limit(most))
    return [
        ListedPerson(
            id=row.id, name=row.name, company=row.company, staff_number=row.staff_number, left_on=_day(row.left_on)
        )
        for row in found
    ]


def person_seen(scope: Scope, tx: Tx, *, person: UUID) -> str | None:
    """What that person is called, added in error or not; None where they are not among those whom the scope shows."""
    if scope.sees_nothing:
        return None
    found: str | None = tx.connection.execute(
        select(PERSON.c.name).where(PERSON.c.id == person, sees_person(scope))
    ).scalar()
    return found


def qualifications_of(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, list[Qualification]]:
    """The qualifications of these people, by person; none for a scope that sees nothing."""
    found: defaultdict[UUID, list[Qualification]] = defaultdict(list)
    if scope.sees_nothing:
        return found
    rows = select(QUALIFICATION).where(QUALIFICATION.c.person_id.in_(ids))
    for row in tx.connection.execute(rows.order_by(QUALIFICATION.c.from_on, QUALIFICATION.c.entry_id)):
        found[row.person_id].append(
            Qualification(
                entry=row.entry_id,
                task=row.task,
                from_on=row.from_on.isoformat(),
                until_on=_day(row.until_on),
                ended_on=_day(row.ended_on),
                ended_how=row.ended_how or "",
            )
        )
    return found


def crews_with(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[InCrew]:
    """Which crews these people are or were in, by the first day; crews in scope, none that was made in error."""
    return _in_crews(scope, tx, CREW_MEMBER.c.person_id.in_(ids))


def members_of(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[InCrew]:
    """Who is or was in these crews, by the first day; crews in scope."""
    return _in_crews(scope, tx, CREW_MEMBER.c.crew_id.in_(ids))


def _in_crews(scope: Scope, tx: Tx, which: ColumnElement[bool]) -> list[InCrew]:
    rows = (
        select(CREW_MEMBER, CREW.c.name)
        .join(CREW, CREW.c.id == CREW_MEMBER.c.crew_id)
        .where(which, ~CREW.c.void, within(scope, CREW.c.area_id))
        .order_by(CREW_MEMBER.c.from_on, CREW.c.name, CREW_MEMBER.c.person_id)
    )
    return [
        InCrew(
            person=row.person_id,
            crew=row.crew_id,
            name=row.name,
            from_on=row.from_on.isoformat(),
            until_on=_day(row.until_on),
        )
        for row in tx.connection.execute(rows)
    ]


def _conditions(asked: WantedPeople) -> list[ColumnElement[bool]]:
    gone = and_(PERSON.c.left_on.is_not(None), PERSON.c.left_on < asked.on)
    found: list[ColumnElement[bool]] = [gone if asked.left else ~gone]
    if asked.name:
        found.append(or_(PERSON.c.name.icontains(asked.name, autoescape=True), bears_number(PERSON.c.id, asked.name)))
    found += [PERSON.c.company.icontains(asked.company, autoescape=True)] if asked.company else []
    if asked.area or asked.role:
        role = [ROLE.c.person_id == PERSON.c.id, _covers(ROLE, asked.on)]
        role += [or_(ROLE.c.area_id.is_(None), ROLE.c.area_id == asked.area)] if asked.area else []
        role += [ROLE.c.role == asked.role] if asked.role else []
        found.append(exists().where(*role))
    if asked.crew:
        in_it = (CREW_MEMBER.c.person_id == PERSON.c.id, CREW_MEMBER.c.crew_id == asked.crew)
        found.append(exists().where(*in_it, _covers(CREW_MEMBER, asked.on)))
    return found + _qualified(asked)


def _qualified(asked: WantedPeople) -> list[ColumnElement[bool]]:
    """Of the task that is asked for, or of any: two texts are one task where they differ in capitals alone."""
    own, other = QUALIFICATION, QUALIFICATION.alias("other")
    mine: list[Any] = [own.c.person_id == PERSON.c.id]
    mine += [own.c.task.icontains(asked.task, autoescape=True)] if asked.task else []
    same = (other.c.person_id == own.c.person_id, func.lower(other.c.task) == func.lower(own.c.task))
    match asked.qualified:
        case "valid":
            return [exists().where(*mine, _holds(own, asked.on))]
        case "ends_soon":
            longer = or_(other.c.until_on.is_(None), other.c.until_on > asked.soon_until)
            renewed = exists().where(*same, _holds(other, asked.on), longer)
            return [exists().where(*mine, _holds(own, asked.on), own.c.until_on <= asked.soon_until, ~renewed)]
        case "lapsed":
            over = or_(own.c.until_on < asked.on, own.c.ended_on <= asked.on)
            return [exists().where(*mine, over, ~exists().where(*same, _holds(other, asked.on)))]
        case "none":
            return [~exists().where(*mine)]
    return [exists().where(*mine)] if asked.task else []


def _holds(of: Any, on: date) -> ColumnElement[bool]:
    return and_(_covers(of, on), or_(of.c.ended_on.is_(None), of.c.ended_on > on))


def _covers(of: Any, on: date) -> ColumnElement[bool]:
    return and_(of.c.from_on <= on, or_(of.c.until_on.is_(None), of.c.until_on >= on))


def _day(on: date | None) -> str:
    return on.isoformat() if on else ""
