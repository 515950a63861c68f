"""Links that others have to something: what they are, how they hang together, why, and who said so."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.queries.named import Named, named
from repairlog.records.store import Tx
from repairlog.records.tables.books import PERSON
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_KIND, SUBJECT
from repairlog.records.tables.seen import sees_leak, sees_subject
from repairlog.records.tables.worked import DIG_SERVES, LEAK

_LINKED = OF_KIND["linked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkFrom:
    """A link that something else has to a thing. `other`, `named`: what; `leak`: of a dig, a leak in scope that it
    serves, on whose sheet it is told. `how`: the code, as the other says it; `reason`: empty where none was given;
    `by`: who typed it; `on`: the day."""

    other: UUID
    named: Named
    leak: UUID | None
    how: str
    reason: str
    by: str
    on: str


def linked_from(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> dict[UUID, list[LinkFrom]]:
    """By id, the links that others in scope have to these, in the order in which they were said."""
    if scope.sees_nothing:
        return {}
    rows = tx.connection.execute(
        select(ABOUT.c.subject_id, SUBJECT.c.id, _LINKED.c.how, _LINKED.c.reason, ENTRY.c.happened_on, PERSON.c.name)
        .join(_LINKED, _LINKED.c.id == ABOUT.c.entry_id)
        .join(ENTRY, ENTRY.c.id == _LINKED.c.id)
        .join(SUBJECT, SUBJECT.c.id == ENTRY.c.subject_id)
        .outerjoin(PERSON, PERSON.c.id == ENTRY.c.typed_by)
        .where(ABOUT.c.subject_id.in_(ids), ABOUT.c.as_what == "to_subject", ~ENTRY.c.void)
        .where(sees_subject(scope, SUBJECT))
        .order_by(ENTRY.c.happened_on, ENTRY.c.journal_index)
    ).all()
    names = named(scope, tx, ids={row.id for row in rows}) if rows else {}
    sheets = sheets_of_digs(scope, tx, ids=[id for id, each in names.items() if each.kind == "dig"])
    found: defaultdict[UUID, list[LinkFrom]] = defaultdict(list)
    for row in (row for row in rows if row.id in names):
        found[row.subject_id].append(
            LinkFrom(
                other=row.id,
                named=names[row.id],
                leak=sheets.get(row.id),
                how=row.how,
                reason=row.reason or "",
                by=row.name or "",
                on=row.happened_on.isoformat(),
            )
        )
    return found


def sheets_of_digs(scope: Scope, tx: Tx, *, ids: Collection[UUID]) -> dict[UUID, UUID]:
    """By dig, a leak in scope that it serves, on whose sheet it is told; none where there is none."""
    if not ids:
        return {}
    rows = (
        select(DIG_SERVES.c.dig_id, LEAK.c.id)
        .join(LEAK, LEAK.c.id == DIG_SERVES.c.leak_id)
        .where(DIG_SERVES.c.dig_id.in_(ids), sees_leak(scope, LEAK))
        .order_by(LEAK.c.number.desc())
    )
    return {row.dig_id: row.id for row in tx.connection.execute(rows)}
