"""People as they stand: their names, and what they may do where and from when."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, false, func, or_, select

from repairlog.access import Membership, Scope
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.books import PERSON, ROLE
from repairlog.records.tables.by_company import people_of_company
from repairlog.records.tables.made_one import stood_for


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """A person on the books. `company`, `staff_number`: what tells people of one name apart; empty where not given."""

    id: UUID
    name: str
    company: str = ""
    staff_number: str = ""


def people_of(scope: Scope, tx: Tx, *, area: UUID) -> list[PersonRow]:
    """Who may have worked in that area, by name: people with a role there or everywhere, of whatever days, and those
    without any role. For a scope of a company's work alone, the people who are or were of that company."""
    here = select(ROLE.c.person_id).where(or_(ROLE.c.area_id == area, ROLE.c.area_id.is_(None)))
    any_role = select(ROLE.c.person_id)
    whole = scope.every_area or area in scope.areas
    seen = [PERSON.c.id.in_(here), PERSON.c.id.not_in(any_role)] if whole else _of_companies(scope)
    if not seen:
        return []
    rows = (
        select(PERSON.c.id, PERSON.c.name)
        .where(~PERSON.c.void, PERSON.c.id.not_in(stood_for()), or_(*seen))
        .order_by(PERSON.c.name, PERSON.c.id)
    )
    return [PersonRow(id=row.id, name=row.name) for row in tx.connection.execute(rows)]


def people_named(scope: Scope, tx: Tx, *, named: str) -> list[PersonRow]:
    """Everybody on the books of that name, capital letters or not; for a scope of areas those who have a role there."""
    return _people(scope, tx, func.lower(PERSON.c.name) == func.lower(named))


def people_with(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[PersonRow]:
    """The people of these ids; for a scope of areas those who have a role there."""
    return _people(scope, tx, PERSON.c.id.in_(ids))


def _people(scope: Scope, tx: Tx, which: ColumnElement[bool]) -> list[PersonRow]:
    if scope.sees_nothing:
        return []
    rows = select(PERSON).where(~PERSON.c.void, which)
    if not scope.every_area:
        there = select(ROLE.c.person_id).where(or_(ROLE.c.area_id.is_(None), ROLE.c.area_id.in_(scope.areas)))
        roles = [PERSON.c.id.in_(there)] if scope.areas else []
        rows = rows.where(or_(false(), *roles, *_of_companies(scope)))
    found = tx.connection.execute(rows.order_by(PERSON.c.name, PERSON.c.id))
    return [PersonRow(id=row.id, name=row.name, company=row.company, staff_number=row.staff_number) for row in found]


def names_of(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, str]:
    """The names of these people, whatever areas they work in; none for a scope that sees nothing."""
    if scope.sees_nothing:
        return {}
    rows = select(PERSON.c.id, PERSON.c.name).where(PERSON.c.id.in_(ids))
    return {row.id: row.name for row in tx.connection.execute(rows)}


def memberships(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, tuple[Membership, ...]]:
    """The roles of these people, by person; those in areas outside the scope are left out."""
    if not scope.every_area and not scope.areas:
        return {}
    found: defaultdict[UUID, list[Membership]] = defaultdict(list)
    for row in tx.connection.execute(_roles_in(scope), {"ids": list(ids)}):
        found[row.person_id].append(
            Membership(
                role=row.role,
                area=row.area_id,
                from_on=row.from_on.isoformat(),
                until_on=_day(row.until_on),
                company=row.company,
                period_from_on=_day(row.period_from_on),
                period_until_on=_day(row.period_until_on),
            )
        )
    return {person: tuple(held) for person, held in found.items()}


@lru_cache(maxsize=128)  # every page asks it, in one of few scopes
def _roles_in(scope: Scope) -> Select[Any]:
    rows = select(ROLE).where(ROLE.c.person_id.in_(IDS))
    if not scope.every_area:
        rows = rows.where(or_(ROLE.c.area_id.is_(None), ROLE.c.area_id.in_(scope.areas)))
    return rows.order_by(ROLE.c.person_id, ROLE.c.entry_id, ROLE.c.key)


def _of_companies(scope: Scope) -> list[ColumnElement[bool]]:
    """The people of the companies whose work alone is seen."""
    return [PERSON.c.id.in_(people_of_company(company)) for company in sorted(scope.companies)]


def _day(on: date | None) -> str:
    return on.isoformat() if on else ""
