"""A file that an entry names: what it is and what it was called, for whoever may see what it is about."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import select

from repairlog.access import Scope
from repairlog.records.queries.settings import subjects
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ENTRY, OF_KIND

_ATTACHED = OF_KIND["attached"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRow:
    """`media_type`: as its content said; `name`: as it was given, empty where none was."""

    digest: str
    media_type: str
    name: str


def files_with(scope: Scope, tx: Tx, *, digests: Collection[str]) -> list[FileRow]:
    """Those of these files that some entry about a subject in scope names; as the first such entry calls it."""
    if scope.sees_nothing:
        return []
    named = (
        select(_ATTACHED.c.digest, _ATTACHED.c.media_type, _ATTACHED.c.name, ENTRY.c.subject_id)
        .join(ENTRY, ENTRY.c.id == _ATTACHED.c.id)
        .where(_ATTACHED.c.digest.in_(digests))
        .order_by(ENTRY.c.journal_index)
    )
    rows = tx.connection.execute(named).all()
    seen = {row.id for row in subjects(scope, tx, ids={row.subject_id for row in rows})}
    first = {row.digest: row for row in reversed(rows) if scope.every_area or row.subject_id in seen}
    return [FileRow(digest=each.digest, media_type=each.media_type, name=each.name or "") for each in first.values()]
