"""The area that a subject answers to now, as a column: the one its last move says, else the one it was opened in."""

from __future__ import annotations

from typing import Any

from sqlalchemy import ColumnElement, FromClause, func, select

from repairlog.records.tables.worked import MOVED


def answers_to(subject: FromClause) -> ColumnElement[Any]:
    """That area of a row of facts that says `id` and `area_id`."""
    moved_to = select(MOVED.c.to_area_id).where(MOVED.c.subject_id == subject.c.id, MOVED.c.last)
    return func.coalesce(moved_to.correlate(subject).scalar_subquery(), subject.c.area_id, type_=subject.c.area_id.type)
