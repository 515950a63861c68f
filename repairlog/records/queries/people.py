"""People as they stand: their names, and what they may do where and from when."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import or_, select

from repairlog.access import Membership, Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS

_PERSON = OF_KIND["person_added"]
_ROLES = OF_ROWS["person_added", "roles"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """A person on the books."""

    id: UUID
    name: str


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


def memberships(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> Mapping[UUID, tuple[Membership, ...]]:
    """The roles of these people, by person; those in areas outside the scope are left out."""
    if not scope.every_area and not scope.areas:
        return {}
    rows = select(_ROLES).join(ENTRY, ENTRY.c.id == _ROLES.c.entry_id).where(_ROLES.c.entry_id.in_(ids), ~ENTRY.c.void)
    if not scope.every_area:
        rows = rows.where(or_(_ROLES.c.area_id.is_(None), _ROLES.c.area_id.in_(scope.areas)))
    found: defaultdict[UUID, list[Membership]] = defaultdict(list)
    for row in tx.connection.execute(rows.order_by(_ROLES.c.entry_id, _ROLES.c.key)):
        until_on = row.until_on.isoformat() if row.until_on else ""
        found[row.entry_id].append(
            Membership(role=row.role, area=row.area_id, from_on=row.from_on.isoformat(), until_on=until_on)
        )
    return {person: tuple(held) for person, held in found.items()}
