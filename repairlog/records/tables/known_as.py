"""What others know by a number of theirs: leaks, and whatever else bears one."""

from __future__ import annotations

from typing import Any

from sqlalchemy import ColumnElement, Select, exists, select, union

from repairlog.records.tables.facts import SUBJECT
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.worked import DIG_SERVES, OUTSIDE_NUMBER, SOURCE

MOST = 500
"""Leaks that are found by one number: it is one leak's, or that of a pipe with a few."""


def bears_number(id: ColumnElement[Any], typed: str) -> ColumnElement[bool]:
    """Whether the subject of that id bears that outside number, the whole of it."""
    return exists().where(OUTSIDE_NUMBER.c.subject_id == id, OUTSIDE_NUMBER.c.search_key == search_key(typed))


def known_to_others_as(typed: str) -> Select[Any]:
    """The leaks that others know by that number: their own, or that of a dig that serves them, of a source, of a place
    at which a source is."""
    bearing = select(OUTSIDE_NUMBER.c.subject_id).where(OUTSIDE_NUMBER.c.search_key == search_key(typed))
    at_a_place = select(SOURCE.c.leak_id).where(SOURCE.c.place_id.in_(bearing))
    found = union(
        bearing,
        select(DIG_SERVES.c.leak_id).where(DIG_SERVES.c.dig_id.in_(bearing)),
        select(SUBJECT.c.within_id).where(SUBJECT.c.id.in_(bearing), SUBJECT.c.within_id.is_not(None)),
        at_a_place,
    ).subquery()
    return select(found.c.subject_id).limit(MOST)
