"""What a scope lets through of leaks, of what belongs to them, and of the areas that they are in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, FromClause, and_, exists, false, or_, select, true

from repairlog.access import Part, Scope
from repairlog.records.tables.answering import answers_to
from repairlog.records.tables.books import PERSON, ROLE
from repairlog.records.tables.by_company import people_of_company, their_leaks, their_subjects
from repairlog.records.tables.facts import ABOUT, OF_KIND
from repairlog.records.tables.within import within
from repairlog.records.tables.worked import CALL, LEAK

_OPENED = OF_KIND["leak_opened"]


def sees_leak(scope: Scope, leak: FromClause) -> ColumnElement[bool]:
    """Whether that leak is in the scope."""
    return or_(within(scope, leak.c.area_id), *(_part_of_leaks(part, leak) for part in _parts(scope)))


def sees_call(scope: Scope, call: FromClause) -> ColumnElement[bool]:
    """Whether that call is in the scope: of a part, those that its leaks came from, and those that a company's people
    went to."""
    parts = list(_parts(scope))
    if not parts:
        return within(scope, call.c.area_id)
    leak, opened = LEAK.alias("leak_of_call"), _OPENED.alias("opened_from_call")
    opened_from = exists().where(opened.c.from_call_id == call.c.id, opened.c.id == leak.c.id).correlate(call, leak)
    of_leaks = exists().where(
        or_(leak.c.id == call.c.leak_id, opened_from), or_(*(_part_of_leaks(part, leak) for part in parts))
    )
    theirs = [
        and_(_in_area(part, call.c.area_id), call.c.id.in_(their_subjects(part.company)))
        for part in parts
        if part.company and not part.from_on
    ]
    return or_(within(scope, call.c.area_id), of_leaks, *theirs)


def sees_subject(scope: Scope, subject: FromClause) -> ColumnElement[bool]:
    """Whether that row of `subject` is in the scope: a leak, a source of one, a dig that serves one, a call. Of a part
    nothing else is seen."""
    parts = list(_parts(scope))
    whole = within(scope, answers_to(subject))
    if not parts:
        return whole
    leak, tie = LEAK.alias("leak_of_subject"), ABOUT.alias("tie_of_dig")
    to_it = (tie.c.entry_id == subject.c.id, tie.c.as_what == "leaks.leak", tie.c.subject_id == leak.c.id)
    serves = exists().where(*to_it).correlate(subject, leak)
    its_leak = or_(leak.c.id == subject.c.id, leak.c.id == subject.c.within_id, and_(subject.c.kind == "dig", serves))
    of_leaks = exists().where(its_leak, or_(*(_part_of_leaks(part, leak) for part in parts)))
    call = CALL.alias("call_of_subject")
    of_calls = exists().where(call.c.id == subject.c.id, sees_call(scope, call))
    return or_(whole, of_leaks, of_calls)


def saw_it_leave(scope: Scope, moved: FromClause) -> ColumnElement[bool]:
    """Whether that row of `moved` is of something that the scope showed before: of a part, a leak, a call or a dig that
    it would show in the area that it left, and of a period none that had left before it."""
    parts = list(_parts(scope))
    whole = within(scope, moved.c.from_area_id)
    if not parts:
        return whole
    leak, opened = LEAK.alias("leak_that_went"), _OPENED.alias("opened_from_what_went")
    call, tie = CALL.alias("call_that_went"), ABOUT.alias("tie_of_what_went")
    it = moved.c.subject_id
    came_from = select(opened.c.id).where(opened.c.from_call_id == it)
    found_by = select(call.c.leak_id).where(call.c.id == it, call.c.leak_id.is_not(None))
    served_by = select(tie.c.subject_id).where(tie.c.entry_id == it, tie.c.as_what == "leaks.leak")
    ways = [way.correlate(moved) for way in (came_from, found_by, served_by)]
    of_it = or_(leak.c.id == it, *(leak.c.id.in_(way) for way in ways))
    shown = (and_(_stayed(part, moved), *_bounds(part, leak)) for part in parts)
    went_to = (and_(_stayed(part, moved), it.in_(their_subjects(part.company))) for part in parts if part.company)
    return or_(whole, exists().where(of_it, or_(*shown)).correlate(moved), *went_to)


def _stayed(part: Part, moved: FromClause) -> ColumnElement[bool]:
    since = moved.c.moved_on >= date.fromisoformat(part.from_on) if part.from_on else true()
    return and_(_in_area(part, moved.c.from_area_id), since)


def sees_some(scope: Scope, area: ColumnElement[Any]) -> ColumnElement[bool]:
    """Whether anything of that area is in the scope."""
    some = scope.some_areas
    if some is None:
        return true()
    return area.in_(some) if some else false()


def works_in(scope: Scope, area: ColumnElement[Any]) -> ColumnElement[bool]:
    """Whether somebody of that scope works in that area, so that they may choose from what lies there: an inspector
    does not."""
    parts = (_in_area(part, area) for part in _parts(scope) if part.company and not part.from_on)
    return or_(within(scope, area), *parts)


def sees_person(scope: Scope) -> ColumnElement[bool]:
    """Whether a row of `person` is shown: one with a role in an area of the scope or in every one, or with none at all;
    of a part that is one company's work, whoever is or was of that company."""
    if scope.every_area:
        return true()
    there = or_(ROLE.c.area_id.is_(None), ROLE.c.area_id.in_(scope.areas))
    any_role = select(ROLE.c.person_id)
    whole = [PERSON.c.id.in_(select(ROLE.c.person_id).where(there)), PERSON.c.id.not_in(any_role)]
    theirs = [PERSON.c.id.in_(people_of_company(company)) for company in sorted(scope.companies)]
    return or_(false(), *(whole if scope.areas else ()), *theirs)


def _parts(scope: Scope) -> Iterator[Part]:
    """In one order, so that one scope is always one statement; none where everything is seen anyway."""
    if not scope.every_area:
        yield from sorted(scope.parts, key=str)


def _part_of_leaks(part: Part, leak: FromClause) -> ColumnElement[bool]:
    return and_(_in_area(part, leak.c.area_id), *_bounds(part, leak))


def _bounds(part: Part, leak: FromClause) -> list[ColumnElement[bool]]:
    """What bounds a part beside its area."""
    company = [leak.c.id.in_(their_leaks(part.company))] if part.company else []
    return [*company, *(_open_on_any_day(leak, part.from_on, part.until_on) if part.from_on else [])]


def _in_area(part: Part, area: ColumnElement[Any]) -> ColumnElement[bool]:
    return true() if part.area is None else area == part.area


def _open_on_any_day(leak: FromClause, from_on: str, until_on: str) -> list[ColumnElement[bool]]:
    """Reported by the last day, and not ended before the first: the day of the ending counts, and an ending that a
    reopening undid is none. One opened in error never was a leak: it is seen where its report lies in the period."""
    first, last = date.fromisoformat(from_on), date.fromisoformat(until_on)
    in_error = leak.c.status == "opened_in_error"
    still = and_(~in_error, or_(leak.c.ended_on.is_(None), leak.c.ended_on >= first))
    return [leak.c.reported_on <= last, or_(still, and_(in_error, leak.c.reported_on >= first))]
