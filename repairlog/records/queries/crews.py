"""The crews of an area, or of all in scope, to choose from."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import or_, select, true

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import CREW, CREW_COMPANY
from repairlog.records.tables.known_as import bears_number
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.of_company import sees_crew
from repairlog.records.tables.within import within


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewRow:
    """A crew by its name."""

    id: UUID
    name: str


def crews_of(scope: Scope, tx: Tx, *, area: UUID) -> list[CrewRow]:
    """The crews of that area as they are called now, by name; those that were made in error are none."""
    rows = tx.connection.execute(
        select(CREW.c.id, CREW.c.name)
        .where(CREW.c.area_id == area, ~CREW.c.void, CREW.c.id.not_in(stood_for()), sees_crew(scope))
        .order_by(CREW.c.name, CREW.c.id)
    )
    return [CrewRow(id=row.id, name=row.name) for row in rows]


def crews_in(scope: Scope, tx: Tx) -> list[CrewRow]:
    """The crews of every area in scope as they are called now, by name; those made in error are none."""
    rows = tx.connection.execute(
        select(CREW.c.id, CREW.c.name)
        .where(~CREW.c.void, CREW.c.id.not_in(stood_for()), sees_crew(scope))
        .order_by(CREW.c.name, CREW.c.id)
    )
    return [CrewRow(id=row.id, name=row.name) for row in rows]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewNow:
    """A crew as it stands. `company`: whose it is today; empty for the operator's own."""

    id: UUID
    area: UUID
    name: str
    company: str


def crews_now(scope: Scope, tx: Tx, *, text: str = "") -> list[CrewNow]:
    """The crews of every area in scope as they are called now, by name; those that were made in error are none.
    `text`: a part of the name, or an outside number, the whole of it."""
    fits = or_(CREW.c.name.icontains(text, autoescape=True), bears_number(CREW.c.id, text)) if text else true()
    last = select(CREW_COMPANY.c.crew_id, CREW_COMPANY.c.company).where(CREW_COMPANY.c.until_on.is_(None)).subquery()
    rows = tx.connection.execute(
        select(CREW.c.id, CREW.c.area_id, CREW.c.name, last.c.company)
        .outerjoin(last, last.c.crew_id == CREW.c.id)
        .where(~CREW.c.void, CREW.c.id.not_in(stood_for()), within(scope, CREW.c.area_id), fits)
        .order_by(CREW.c.name, CREW.c.id)
    )
    return [CrewNow(id=row.id, area=row.area_id, name=row.name, company=row.company or "") for row in rows]
