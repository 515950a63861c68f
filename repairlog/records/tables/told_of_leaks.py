"""Conditions on a leak by what its story tells: when it was worked on, by whom, how, and what was noted of it."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from uuid import UUID

from sqlalchemy import ColumnElement, FromClause, func, or_, select

from repairlog.records.tables.books import CREW_MEMBER
from repairlog.records.tables.facts import ENTRY, OF_KIND, WHO_DID
from repairlog.records.tables.made_one import is_one_of
from repairlog.records.tables.search_key import MOST_WORDS
from repairlog.records.tables.worked import ATTEMPT, SOURCE

_GIVEN = OF_KIND["work_given"]
_NOTE = OF_KIND["note"]
_REPAIR = OF_KIND["repair_attempted"]


def within_period(
    leak: FromClause, *, by: str, from_on: date | None, until_on: date | None
) -> list[ColumnElement[bool]]:
    """Whether it was reported, repaired or ended (`by`) from that day until that day, both counted in."""
    if by == "repaired":
        ends = _between(ATTEMPT.c.attempted_on, from_on, until_on)
        return [leak.c.id.in_(select(ATTEMPT.c.leak_id).where(*ends))] if ends else []
    return _between(leak.c.ended_on if by == "ended" else leak.c.reported_on, from_on, until_on)


def _between(day: ColumnElement[date], from_on: date | None, until_on: date | None) -> list[ColumnElement[bool]]:
    conditions = [day >= from_on] if from_on else []
    return conditions + ([day <= until_on] if until_on else [])


def work_of(leak: FromClause, *, crew: UUID) -> ColumnElement[bool]:
    """Whether that crew was given work on it, or somebody did something there on a day when they were in the crew;
    under whichever record of it."""
    given = (
        select(ENTRY.c.id)
        .join(_GIVEN, _GIVEN.c.id == ENTRY.c.id)
        .where(ENTRY.c.subject_id == leak.c.id, ~ENTRY.c.void, is_one_of(_GIVEN.c.crew_id, [crew]))
    )
    in_it = [
        is_one_of(CREW_MEMBER.c.crew_id, [crew]),
        CREW_MEMBER.c.from_on <= ENTRY.c.happened_on,
        or_(CREW_MEMBER.c.until_on.is_(None), CREW_MEMBER.c.until_on >= ENTRY.c.happened_on),
    ]
    did = (
        select(ENTRY.c.id)
        .join(WHO_DID, WHO_DID.c.entry_id == ENTRY.c.id)
        .join(CREW_MEMBER, CREW_MEMBER.c.person_id == WHO_DID.c.person_id)
        .where(ENTRY.c.subject_id == leak.c.id, ~ENTRY.c.void, *in_it)
    )
    return or_(given.exists(), did.exists())


def repaired_by(leak: FromClause, *, method: str) -> ColumnElement[bool]:
    """Whether a repair was attempted on it by a method in whose name those words stand, capitals or not."""
    name = func.replace(func.lower(_REPAIR.c.method), "_", " ")
    attempts = (
        select(ATTEMPT.c.id)
        .join(_REPAIR, _REPAIR.c.id == ATTEMPT.c.id)
        .where(ATTEMPT.c.leak_id == leak.c.id, name.contains(method.lower().replace("_", " "), autoescape=True))
    )
    return attempts.exists()


def at_places(leak: FromClause, places: Collection[UUID]) -> ColumnElement[bool]:
    """Whether a source of it, as it is known now, is at one of these places."""
    return leak.c.id.in_(select(SOURCE.c.leak_id).where(SOURCE.c.place_id.in_(places)))


def noted(leak: FromClause, *, words: str) -> ColumnElement[bool]:
    """Whether there is a note on it in which every one of the words stands, capitals or not."""
    text = func.lower(_NOTE.c.text)
    holding = [
        or_(text.contains(word.lower(), autoescape=True), _NOTE.c.text.contains(word, autoescape=True))
        for word in list(dict.fromkeys(words.split()))[:MOST_WORDS]
    ]
    notes = (
        select(ENTRY.c.id)
        .join(_NOTE, _NOTE.c.id == ENTRY.c.id)
        .where(ENTRY.c.subject_id == leak.c.id, ENTRY.c.kind == "note", ~ENTRY.c.void, *holding)
    )
    return notes.exists()
