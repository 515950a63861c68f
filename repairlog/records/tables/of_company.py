"""Which companies a scope shows, and how people, crews and roles write the names of companies.

Who may see what goes by a company's name as it is written on them (`by_company`), and by nothing said here: a name that
is shown together with another gives nobody more to see.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from itertools import chain
from typing import Any

from sqlalchemy import ColumnElement, Select, and_, false, func, or_, select, true

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.books import COMPANY, COMPANY_NAME, COMPANY_TERM, CREW, CREW_COMPANY, PERSON, ROLE
from repairlog.records.tables.by_company import crews_of_company
from repairlog.records.tables.made_one import stood_for
from repairlog.records.tables.seen import sees_person
from repairlog.records.tables.within import within
from repairlog.trade.company import plain_name, plain_names


def sees_company(scope: Scope) -> ColumnElement[bool]:
    """Whether a row of `company` is shown: to whoever sees an area as a whole each; to who sees one company's work
    alone, that company, by whichever of its names."""
    if scope.every_area or scope.areas:
        return true()
    named = select(COMPANY_NAME.c.company_id).where(COMPANY_NAME.c.plain.in_(sorted(plain_names(scope.companies))))
    return COMPANY.c.id.in_(named) if scope.companies else false()


def in_term(on: ColumnElement[date]) -> ColumnElement[bool]:
    """Whether that day is in a row of `company_term`: its first and its last day count, and one whose first day is not
    known had begun by any day."""
    begun = or_(COMPANY_TERM.c.from_on.is_(None), COMPANY_TERM.c.from_on <= on)
    return and_(begun, or_(COMPANY_TERM.c.until_on.is_(None), on <= COMPANY_TERM.c.until_on))


def sees_crew(scope: Scope) -> ColumnElement[bool]:
    """Whether a row of `crew` is shown: one of the scope's areas, or that is or was of a company whose work is seen."""
    theirs = (CREW.c.id.in_(crews_of_company(company)) for company in sorted(scope.companies))
    return or_(within(scope, CREW.c.area_id), *theirs)


def sees_role(scope: Scope) -> ColumnElement[bool]:
    """Whether a row of `role` is shown: one in an area of the scope, or in every area."""
    if scope.every_area:
        return true()
    return or_(ROLE.c.area_id.is_(None), ROLE.c.area_id.in_(scope.areas)) if scope.areas else false()


def on_people(scope: Scope) -> tuple[ColumnElement[bool], ...]:
    """The people that count as a company's: those whom the scope shows, each once."""
    return (~PERSON.c.void, PERSON.c.id.not_in(stood_for()), sees_person(scope), PERSON.c.company != "")


def written(scope: Scope, tx: Tx) -> Iterator[tuple[str, str, int]]:
    """Every name of a company as it is written, on what (`people`, `crews`, `roles`) and on how many of them that the
    scope shows."""
    whose = CREW_COMPANY.c.company
    people = _counted(PERSON.c.company, PERSON.c.id).where(*on_people(scope))
    crews = _counted(whose, CREW.c.id).join(CREW, CREW.c.id == CREW_COMPANY.c.crew_id)
    crews = crews.where(~CREW.c.void, sees_crew(scope), whose != "")
    roles = _counted(ROLE.c.company, ROLE.c.person_id).join(PERSON, PERSON.c.id == ROLE.c.person_id)
    roles = roles.where(ROLE.c.company != "", sees_role(scope), ~PERSON.c.void)
    for on, asked in (("people", people), ("crews", crews), ("roles", roles)):
        for row in tx.connection.execute(asked):
            yield row.company, on, row.many


def spellings(tx: Tx, names: Collection[str]) -> list[str]:
    """Of the names as they are written on people, crews and roles, whoever may see them, those that are one of these,
    capitals and spaces apart."""
    wanted = plain_names(names)
    columns = (PERSON.c.company, CREW_COMPANY.c.company, ROLE.c.company)
    every = chain.from_iterable(tx.connection.execute(select(each).distinct()).scalars() for each in columns)
    return sorted({name for name in every if name and plain_name(name) in wanted})


def _counted(name: ColumnElement[Any], of: ColumnElement[Any]) -> Select[Any]:
    return select(name.label("company"), func.count(of.distinct()).label("many")).group_by(name)
