"""The digs that serve a leak, and what was linked to a subject from elsewhere."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT, ENTRY, OF_KIND, SUBJECT
from repairlog.records.tables.seen import sees_leak, sees_subject
from repairlog.records.tables.worked import DIG, DIG_SERVES, LEAK

_LINKED = OF_KIND["linked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRow:
    """A link that another leak has to this one. `how`: its code, as the other says it; `reason`: empty where none was
    given."""

    other: UUID
    number: str
    how: str
    reason: str


def digs_for(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> dict[UUID, list[UUID]]:
    """By leak, the digs in scope that say that they serve it, those opened in error too."""
    rows = (
        select(ABOUT.c.subject_id, ABOUT.c.entry_id)
        .join(SUBJECT, SUBJECT.c.id == ABOUT.c.entry_id)
        .where(ABOUT.c.subject_id.in_(leaks), ABOUT.c.as_what == "leaks.leak", sees_subject(scope, SUBJECT))
        .order_by(ABOUT.c.entry_id)
    )
    found: defaultdict[UUID, list[UUID]] = defaultdict(list)
    for leak, dig in tx.connection.execute(rows):
        found[leak].append(dig)
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class DigRow:
    """A dig that serves a leak. `found`: empty while nobody said; `ticket`: empty where there is none."""

    id: UUID
    leak: UUID
    number: str
    opened_on: str
    status: str
    found: str
    ticket: str


def digs_of(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> list[DigRow]:
    """The digs that serve these leaks, the newest first, once for each leak in scope that they serve."""
    rows = (
        select(DIG, LEAK.c.id.label("leak_id"), LEAK.c.number)
        .join(DIG_SERVES, DIG_SERVES.c.dig_id == DIG.c.id)
        .join(LEAK, LEAK.c.id == DIG_SERVES.c.leak_id)
        .where(LEAK.c.id.in_(leaks), sees_leak(scope, LEAK))
        .order_by(DIG.c.opened_on.desc(), DIG.c.id, LEAK.c.number)
    )
    return [
        DigRow(
            id=row.id,
            leak=row.leak_id,
            number=row.number,
            opened_on=row.opened_on.isoformat(),
            status=row.status,
            found=row.found or "",
            ticket=row.ticket or "",
        )
        for row in tx.connection.execute(rows)
    ]


def links_to(scope: Scope, tx: Tx, *, leaks: Collection[UUID]) -> dict[UUID, list[LinkRow]]:
    """By leak, the links that other leaks in scope have to it, in the order of their numbers."""
    rows = (
        select(ABOUT.c.subject_id, LEAK.c.id, LEAK.c.number, _LINKED.c.how, _LINKED.c.reason)
        .join(ABOUT, ABOUT.c.entry_id == _LINKED.c.id)
        .join(ENTRY, ENTRY.c.id == _LINKED.c.id)
        .join(LEAK, LEAK.c.id == ENTRY.c.subject_id)
        .where(ABOUT.c.subject_id.in_(leaks), ABOUT.c.as_what == "to_subject", ~ENTRY.c.void)
        .where(sees_leak(scope, LEAK))
        .order_by(LEAK.c.number, _LINKED.c.id)
    )
    found: defaultdict[UUID, list[LinkRow]] = defaultdict(list)
    for row in tx.connection.execute(rows):
        found[row.subject_id].append(LinkRow(other=row.id, number=row.number, how=row.how, reason=row.reason or ""))
    return found
