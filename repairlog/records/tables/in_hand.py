"""Whose the work is that is still to be done."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from sqlalchemy import ColumnElement, or_, select

from repairlog.records.tables.books import CREW_MEMBER
from repairlog.records.tables.made_one import is_one_of
from repairlog.records.tables.worked import WORK


def held_by(person: UUID, *, on: date) -> ColumnElement[bool]:
    """Whether work is that person's, or of a crew that they belong to on that day: under whichever record of either."""
    crews = select(CREW_MEMBER.c.crew_id).where(
        is_one_of(CREW_MEMBER.c.person_id, [person]),
        CREW_MEMBER.c.from_on <= on,
        or_(CREW_MEMBER.c.until_on.is_(None), CREW_MEMBER.c.until_on >= on),
    )
    return or_(is_one_of(WORK.c.person_id, [person]), is_one_of(WORK.c.crew_id, crews))
