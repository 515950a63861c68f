"""Work on leaks by people of a company on a day on which it did not work for the operator. It is read when somebody
looks, never stored: so an end, a further term or another name of a company counts at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, and_, exists, false, func, or_, select

from repairlog.access import Scope
from repairlog.entries.kinds import RIGHTING
from repairlog.records.queries.companies import companies_called
from repairlog.records.store import Tx
from repairlog.records.tables.books import COMPANY, COMPANY_TERM, PERSON
from repairlog.records.tables.facts import ABOUT, ENTRY
from repairlog.records.tables.of_company import in_term
from repairlog.records.tables.seen import sees_leak
from repairlog.records.tables.worked import AREA, LEAK


@dataclass(frozen=True, slots=True, kw_only=True)
class TermEdge:
    """The row after which a page begins."""

    on: date
    entry: UUID
    person: UUID


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfTerm:
    """An entry on a leak that somebody of a company did on a day outside its terms. `kind`: of the entry; `called`: the
    company."""

    entry: UUID
    on: str
    kind: str
    leak: UUID
    number: str
    area: UUID
    person: UUID
    name: str
    company: UUID
    called: str


def out_of_term(scope: Scope, tx: Tx, *, company: UUID | None, after: TermEdge | None, most: int) -> list[OutOfTerm]:
    """Such work in scope, the newest first; at most `most`, after that row. `company`: of that one alone. A day that is
    only known as on or before, and one before the area's cut-over, accuses nobody."""
    if scope.sees_nothing:
        return []
    whose = _whose(scope, tx, company)
    rows = _outside(scope, whose).order_by(ENTRY.c.happened_on.desc(), ENTRY.c.id.desc(), PERSON.c.id.desc())
    if after is not None:
        older = or_(ENTRY.c.id < after.entry, and_(ENTRY.c.id == after.entry, PERSON.c.id < after.person))
        rows = rows.where(or_(ENTRY.c.happened_on < after.on, and_(ENTRY.c.happened_on == after.on, older)))
    called = {row.id: row.name for row in tx.connection.execute(select(COMPANY.c.id, COMPANY.c.name))}
    return [
        OutOfTerm(
            entry=row.entry,
            on=row.happened_on.isoformat(),
            kind=row.kind,
            leak=row.leak,
            number=row.number,
            area=row.area_id,
            person=row.person,
            name=row.name,
            company=whose[row.company],
            called=called[whose[row.company]],
        )
        for row in tx.connection.execute(rows.limit(most))
    ]


def entries_out_of_term(scope: Scope, tx: Tx, *, company: UUID | None) -> int:
    """How many entries there are of such work in scope; `company`: of that one alone."""
    if scope.sees_nothing:
        return 0
    found = _outside(scope, _whose(scope, tx, company)).subquery()
    return tx.connection.execute(select(func.count(found.c.entry.distinct()))).scalar_one()


def _whose(scope: Scope, tx: Tx, company: UUID | None) -> Mapping[str, UUID]:
    """By each name as it is written on people, the company on the books that bears it."""
    written = tx.connection.execute(select(PERSON.c.company).where(PERSON.c.company != "").distinct()).scalars().all()
    found = companies_called(scope, tx, names=written)
    return {name: id for name, id in found.items() if company in (None, id)}


def _outside(scope: Scope, whose: Mapping[str, UUID]) -> Select[Any]:
    """`whose`: by name as written, the company."""
    by_company: dict[UUID, list[str]] = {}
    for name, id in sorted(whose.items()):
        by_company.setdefault(id, []).append(name)
    outside = [and_(PERSON.c.company.in_(names), ~_works(id)) for id, names in sorted(by_company.items(), key=str)]
    return (
        select(
            ENTRY.c.id.label("entry"),
            ENTRY.c.happened_on,
            ENTRY.c.kind,
            LEAK.c.id.label("leak"),
            LEAK.c.number,
            LEAK.c.area_id,
            PERSON.c.id.label("person"),
            PERSON.c.name,
            PERSON.c.company,
        )
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .join(AREA, AREA.c.id == LEAK.c.area_id)
        .join(ABOUT, and_(ABOUT.c.entry_id == ENTRY.c.id, ABOUT.c.as_what == "did.person"))
        .join(PERSON, PERSON.c.id == ABOUT.c.subject_id)
        .where(~ENTRY.c.void, ENTRY.c.kind.not_in(RIGHTING), ENTRY.c.happened_known.is_(None), sees_leak(scope, LEAK))
        .where(or_(AREA.c.cut_over_on.is_(None), ENTRY.c.happened_on >= AREA.c.cut_over_on))
        .where(or_(false(), *outside))
    )


def _works(company: UUID) -> ColumnElement[bool]:
    """Whether that company works for the operator on the day of the entry: the first and the last day count."""
    return exists().where(COMPANY_TERM.c.company_id == company, in_term(ENTRY.c.happened_on)).correlate(ENTRY)
