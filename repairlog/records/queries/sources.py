"""The sources of a leak, and the repairs attempted on them, as they stand."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import OF_KIND, SUBJECT
from repairlog.records.tables.seen import sees_subject
from repairlog.records.tables.worked import ATTEMPT, SOURCE
from repairlog.trade.attempts import Attempt

_ATTEMPTED = OF_KIND["repair_attempted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceRow:
    """A source as it is known now. `number`: its place among the leak's sources, from 1. `part`, `material`: codes;
    `size` as typed; empty where nothing was said."""

    id: UUID
    number: int
    part: str
    component: str
    material: str
    size: str

    @property
    def said(self) -> dict[str, str]:
        """What was said of it, by name."""
        return {"part": self.part, "component": self.component, "material": self.material, "size": self.size}


@dataclass(frozen=True, slots=True, kw_only=True)
class AttemptRow:
    """An attempt as it stands, and its method as said; empty where none was."""

    attempt: Attempt
    method: str


def sources_of(scope: Scope, tx: Tx, *, leak: UUID) -> list[SourceRow]:
    """The sources of that leak, in the order in which they were found."""
    rows = tx.connection.execute(
        select(SOURCE)
        .join(SUBJECT, SUBJECT.c.id == SOURCE.c.leak_id)
        .where(SOURCE.c.leak_id == leak, sees_subject(scope, SUBJECT))
        .order_by(SOURCE.c.number)
    )
    return [
        SourceRow(
            id=row.id,
            number=row.number,
            part=row.part or "",
            component=row.component or "",
            material=row.material or "",
            size=row.size or "",
        )
        for row in rows
    ]


def attempts_of(scope: Scope, tx: Tx, *, leak: UUID) -> list[AttemptRow]:
    """The repairs attempted on that leak, in the order in which they happened."""
    rows = tx.connection.execute(
        select(ATTEMPT, _ATTEMPTED.c.method)
        .join(_ATTEMPTED, _ATTEMPTED.c.id == ATTEMPT.c.id)
        .join(SUBJECT, SUBJECT.c.id == ATTEMPT.c.leak_id)
        .where(ATTEMPT.c.leak_id == leak, sees_subject(scope, SUBJECT))
        .order_by(ATTEMPT.c.number)
    )
    return [
        AttemptRow(
            attempt=Attempt(
                id=row.id,
                source=row.source_id,
                number=row.number,
                lasting=row.lasting,
                on=row.attempted_on.isoformat(),
                outcome=row.outcome,
                decided_by=row.decided_by_id,
                review=row.review,
            ),
            method=row.method or "",
        )
        for row in rows
    ]
