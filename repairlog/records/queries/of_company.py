"""What there is of a company: its people, its crews, roles that are bound to it, and the instruments that its people
put on the books. Each as the scope shows it: a company's page shows nobody more than the lists do."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Select, select, union

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, CREW_COMPANY, CREW_MEMBER, INSTRUMENT, PERSON, ROLE
from repairlog.records.tables.facts import ABOUT, ENTRY
from repairlog.records.tables.of_company import on_people, sees_crew, sees_role, spellings
from repairlog.records.tables.seen import works_in


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanyPerson:
    """`company`: as it is written on the person; `left_on`: the last day, empty while there is none."""

    id: UUID
    name: str
    company: str
    staff_number: str
    left_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanyCrew:
    """A crew that is or was of the company from a day to a day, both counted in; `until_on` empty: open."""

    id: UUID
    name: str
    company: str
    from_on: str
    until_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CompanyRole:
    """A role that shows the company's work alone. `area`: None for every area."""

    person: UUID
    name: str
    role: str
    area: UUID | None
    company: str
    from_on: str
    until_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """An instrument that somebody of the company put on the books."""

    id: UUID
    mark: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCompany:
    """`people`: by name, at the most as many as were asked for."""

    people: tuple[CompanyPerson, ...] = ()
    crews: tuple[CompanyCrew, ...] = ()
    roles: tuple[CompanyRole, ...] = ()
    brought: tuple[Brought, ...] = ()


def of_company(scope: Scope, tx: Tx, *, names: Collection[str], most: int) -> OfCompany | None:
    """What bears one of these names of a company; of each at most `most`. None where the scope shows nothing of it."""
    if scope.sees_nothing:
        return None
    written = spellings(tx, names)
    found = OfCompany(
        people=tuple(_people(scope, tx, written, most)),
        crews=tuple(_crews(scope, tx, written, most)),
        roles=tuple(_roles(scope, tx, written, most)),
        brought=tuple(_brought(scope, tx, written, most)),
    )
    return None if found == OfCompany() else found


def _people(scope: Scope, tx: Tx, written: Collection[str], most: int) -> list[CompanyPerson]:
    rows = select(PERSON).where(*on_people(scope), PERSON.c.company.in_(written))
    return [
        CompanyPerson(
            id=row.id, name=row.name, company=row.company, staff_number=row.staff_number, left_on=_day(row.left_on)
        )
        for row in tx.connection.execute(rows.order_by(PERSON.c.name, PERSON.c.id).limit(most))
    ]


def _crews(scope: Scope, tx: Tx, written: Collection[str], most: int) -> list[CompanyCrew]:
    rows = (
        select(CREW.c.id, CREW.c.name, CREW_COMPANY.c.company, CREW_COMPANY.c.from_on, CREW_COMPANY.c.until_on)
        .join(CREW_COMPANY, CREW_COMPANY.c.crew_id == CREW.c.id)
        .where(~CREW.c.void, sees_crew(scope), CREW_COMPANY.c.company.in_(written))
        .order_by(CREW.c.name, CREW.c.id, CREW_COMPANY.c.from_on)
    )
    return [
        CompanyCrew(
            id=row.id,
            name=row.name,
            company=row.company,
            from_on=row.from_on.isoformat(),
            until_on=_day(row.until_on),
        )
        for row in tx.connection.execute(rows.limit(most))
    ]


def _roles(scope: Scope, tx: Tx, written: Collection[str], most: int) -> list[CompanyRole]:
    rows = (
        select(ROLE, PERSON.c.name)
        .join(PERSON, PERSON.c.id == ROLE.c.person_id)
        .where(~PERSON.c.void, sees_role(scope), ROLE.c.company.in_(written))
        .order_by(PERSON.c.name, ROLE.c.from_on, ROLE.c.entry_id, ROLE.c.key)
    )
    return [
        CompanyRole(
            person=row.person_id,
            name=row.name,
            role=row.role,
            area=row.area_id,
            company=row.company,
            from_on=row.from_on.isoformat(),
            until_on=_day(row.until_on),
        )
        for row in tx.connection.execute(rows.limit(most))
    ]


def _brought(scope: Scope, tx: Tx, written: Collection[str], most: int) -> list[Brought]:
    rows = (
        select(INSTRUMENT.c.id, INSTRUMENT.c.mark, INSTRUMENT.c.what)
        .join(ENTRY, ENTRY.c.id == INSTRUMENT.c.id)
        .join(ABOUT, ABOUT.c.entry_id == ENTRY.c.id)
        .where(~INSTRUMENT.c.void, works_in(scope, INSTRUMENT.c.area_id))
        .where(ABOUT.c.as_what == "did.person", ABOUT.c.subject_id.in_(_theirs(written)))
        .order_by(INSTRUMENT.c.mark, INSTRUMENT.c.id)
        .distinct()
    )
    return [Brought(id=row.id, mark=row.mark, what=row.what) for row in tx.connection.execute(rows.limit(most))]


def _theirs(written: Collection[str]) -> Select[Any]:
    """Whoever is of the company by themselves, or is or was in a crew of it."""
    crews = select(CREW_COMPANY.c.crew_id).where(CREW_COMPANY.c.company.in_(written))
    found = union(
        select(PERSON.c.id).where(PERSON.c.company.in_(written)),
        select(CREW_MEMBER.c.person_id).where(CREW_MEMBER.c.crew_id.in_(crews)),
    ).subquery()
    return select(found.c[0])


def _day(on: date | None) -> str:
    return on.isoformat() if on else ""
