"""People as they stand: their names, and what they may do where and from when."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, func, or_, select

from repairlog.access import Membership, Scope
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS

_PERSON = OF_KIND["person_added"]
_ROLES = OF_ROWS["person_added", "roles"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """A person on the books. `company`, `staff_number`: what tells people of one name apart; empty where not given."""

    id: UUID
    name: str
    company: str = ""
    staff_number: str = ""


def people_of(scope: Scope, tx: Tx, *, area: UUID) -> list[PersonRow]:
    """Who may have worked in that area, by name: people with a role there or everywhere, of whatever days, and those
    without any role."""
    if not scope.every_area and area not in scope.areas:
        return []
    here = select(_ROLES.c.entry_id).where(or_(_ROLES.c.area_id == area, _ROLES.c.area_id.is_(None)))
    any_role = select(_ROLES.c.entry_id)
    rows = (
        select(_PERSON.c.id, _PERSON.c.name)
        .join(ENTRY, ENTRY.c.id == _PERSON.c.id)
        .where(~ENTRY.c.void, or_(_PERSON.c.id.in_(here), _PERSON.c.id.not_in(any_role)))
        .order_by(_PERSON.c.name, _PERSON.c.id)
    )
    return [PersonRow(id=row.id, name=row.name) for row in tx.connection.execute(rows)]


def people_named(scope: Scope, tx: Tx, *, named: str) -> list[PersonRow]:
    """Everybody on the books of that name, capital letters or not; for a scope of areas those who have a role there."""
    return _people(scope, tx, func.lower(_PERSON.c.name) == func.lower(named))


def people_with(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> list[PersonRow]:
    """The people of these ids; for a scope of areas those who have a role there."""
    return _people(scope, tx, _PERSON.c.id.in_(ids))


def _people(scope: Scope, tx: Tx, which: ColumnElement[bool]) -> list[PersonRow]:
    if not scope.every_area and not scope.areas:
        return []
    rows = select(_PERSON).join(ENTRY, ENTRY.c.id == _PERSON.c.id).where(~ENTRY.c.void, which)
    if not scope.every_area:
        there = or_(_ROLES.c.area_id.is_(None), _ROLES.c.area_id.in_(scope.areas))
        rows = rows.where(_PERSON.c.id.in_(select(_ROLES.c.entry_id).where(there)))
    found = tx.connection.execute(rows.order_by(_PERSON.c.name, _PERSON.c.id))
    return [
        PersonRow(id=row.id, name=row.name, company=row.company or "", staff_number=row.staff_number or "")
        for row in found
    ]


def names_of(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, str]:
    """The names of these people, whatever areas they work in; none for a scope that sees nothing."""
    if not scope.every_area and not scope.areas:
        return {}
    rows = select(_PERSON.c.id, _PERSON.c.name).where(_PERSON.c.id.in_(ids))
    return {row.id: row.name for row in tx.connection.execute(rows)}


def memberships(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, tuple[Membership, ...]]:
    """The roles of these people, by person; those in areas outside the scope are left out."""
    if not scope.every_area and not scope.areas:
        return {}
    found: defaultdict[UUID, list[Membership]] = defaultdict(list)
    for row in tx.connection.execute(_roles_in(scope), {"ids": list(ids)}):
        until_on = row.until_on.isoformat() if row.until_on else ""
        found[row.entry_id].append(
            Membership(role=row.role, area=row.area_id, from_on=row.from_on.isoformat(), until_on=until_on)
        )
    return {person: tuple(held) for person, held in found.items()}


@lru_cache(maxsize=128)  # every page asks it, in one of few scopes
def _roles_in(scope: Scope) -> Select[Any]:
    rows = select(_ROLES).join(ENTRY, ENTRY.c.id == _ROLES.c.entry_id).where(_ROLES.c.entry_id.in_(IDS), ~ENTRY.c.void)
    if not scope.every_area:
        rows = rows.where(or_(_ROLES.c.area_id.is_(None), _ROLES.c.area_id.in_(scope.areas)))
    return rows.order_by(_ROLES.c.entry_id, _ROLES.c.key)
