"""What a company's people worked on, or were given: by the days on which they were its people."""

from __future__ import annotations

from typing import Any

from sqlalchemy import (
    ColumnElement,
    Date,
    FromClause,
    Select,
    and_,
    cast,
    func,
    literal,
    null,
    or_,
    select,
    union,
    union_all,
)

from repairlog.records.tables.books import CREW_COMPANY, CREW_MEMBER, PERSON, ROLE
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_KIND, SUBJECT

_INTO_HANDS = ("work_given", "call_sent", "call_on_way", "call_on_site")
"""Kinds by which work comes into the hands of a crew or a person."""


def their_subjects(company: str) -> Select[Any]:
    """The subjects in whose stories some live entry was done by that company's people, or put work into their hands:
    leaks, calls, digs, sources and whatever else."""
    theirs = union_all(*_held_by(company)).subquery()
    into_hands = and_(ABOUT.c.as_what.in_(("crew", "person")), ENTRY.c.kind.in_(_INTO_HANDS))
    return (
        select(ENTRY.c.subject_id)
        .join(ABOUT, ABOUT.c.entry_id == ENTRY.c.id)
        .join(theirs, theirs.c.id == ABOUT.c.subject_id)
        .where(or_(ABOUT.c.as_what == "did.person", into_hands), ~ENTRY.c.void, _on_the_day(theirs))
        .distinct()
    )


def their_leaks(company: str) -> Select[Any]:
    """The leaks among them; those of a source, a dig or a call among them, too."""
    theirs = their_subjects(company).cte()
    ids = select(theirs.c.subject_id)
    of_sources = select(SUBJECT.c.within_id).where(SUBJECT.c.id.in_(ids), SUBJECT.c.within_id.is_not(None))
    of_digs = select(ABOUT.c.subject_id).where(ABOUT.c.entry_id.in_(ids), ABOUT.c.as_what == "leaks.leak")
    outcome = OF_KIND["call_outcome"]
    of_calls = (
        select(outcome.c.found_leak_id)
        .join(ENTRY, ENTRY.c.id == outcome.c.id)
        .where(ENTRY.c.subject_id.in_(ids), ~ENTRY.c.void, outcome.c.found_leak_id.is_not(None))
    )
    found = union(ids, of_sources, of_digs, of_calls).subquery()
    return select(found.c[0])


def people_of_company(company: str) -> Select[Any]:
    """Everybody who is or was of that company, whenever."""
    crews = select(CREW_COMPANY.c.crew_id).where(_same(CREW_COMPANY.c.company, company))
    found = union(
        select(PERSON.c.id.label("id")).where(_same(PERSON.c.company, company)),
        select(CREW_MEMBER.c.person_id).where(CREW_MEMBER.c.crew_id.in_(crews)),
        select(ROLE.c.person_id).where(_same(ROLE.c.company, company)),
    ).subquery()
    return select(found.c.id)


def crews_of_company(company: str) -> Select[Any]:
    """Every crew that is or was of that company, whenever."""
    return select(CREW_COMPANY.c.crew_id).where(_same(CREW_COMPANY.c.company, company))


def _held_by(company: str) -> list[Select[Any]]:
    """Its people and its crews, each with the days on which they are its own: of a member of a crew, those of the
    membership and those of the crew."""
    day = cast(null(), Date)
    of_crew = (CREW_COMPANY.c.from_on.label("first"), CREW_COMPANY.c.until_on.label("last"))
    membership = (CREW_MEMBER.c.person_id, CREW_MEMBER.c.from_on, CREW_MEMBER.c.until_on)
    crew = CREW_COMPANY.c.crew_id
    return [
        select(crew.label("id"), day.label("from_on"), day.label("until_on"), *of_crew).where(_of_crew(company)),
        select(*membership, *of_crew).join(CREW_COMPANY, crew == CREW_MEMBER.c.crew_id).where(_of_crew(company)),
        select(ROLE.c.person_id, ROLE.c.from_on, ROLE.c.until_on, day, day).where(_same(ROLE.c.company, company)),
        select(PERSON.c.id, day, day, day, day).where(_same(PERSON.c.company, company)),
    ]


def _of_crew(company: str) -> ColumnElement[bool]:
    return _same(CREW_COMPANY.c.company, company)


def _on_the_day(theirs: FromClause) -> ColumnElement[bool]:
    """The entry happened on one of those days, the first and the last counted in; no day: open on that side."""
    on = ENTRY.c.happened_on
    firsts = (or_(each.is_(None), each <= on) for each in (theirs.c.from_on, theirs.c.first))
    lasts = (or_(each.is_(None), on <= each) for each in (theirs.c.until_on, theirs.c.last))
    return and_(*firsts, *lasts)


def _same(column: ColumnElement[Any], company: str) -> ColumnElement[bool]:
    """Capitals apart, by the one rule of the database that is asked."""
    return func.lower(column) == func.lower(literal(company))
