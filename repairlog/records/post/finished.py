"""What was kept as unfinished and is finished now, since every entry in it stands in the journal."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any
from uuid import UUID

from sqlalchemy import delete, select

from repairlog.entries.ids import as_id
from repairlog.records import journal
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.beside import UNFINISHED

_UNDER_THESE = select(UNFINISHED.c.id, UNFINISHED.c.person_id, UNFINISHED.c.raw).where(UNFINISHED.c.id.in_(IDS))


def drop_finished(tx: Tx, whose: Mapping[UUID, UUID]) -> None:
    """Drop what was kept under one of these ids, where all of it stands. `whose`: by id, who sent it now.

    Another's row goes only where it says nothing else than what stands: what they typed is theirs to look at again.
    """
    for row in tx.connection.execute(_UNDER_THESE, {"ids": list(whose)}).all():
        raw = [entry for entry in json.loads(row.raw) if isinstance(entry, dict)]
        standing = journal.known(tx, {id for entry in raw if (id := as_id(str(entry.get("id"))))})
        lines = {str(id): known.sealed["said"] for id, known in standing.items()}
        whole = all(str(entry.get("id")) in lines for entry in raw)
        if whole and (row.person_id == whose[row.id] or all(_says(entry, lines[entry["id"]]) for entry in raw)):
            mine = (UNFINISHED.c.id == row.id, UNFINISHED.c.person_id == row.person_id)
            tx.connection.execute(delete(UNFINISHED).where(*mine))


def _says(raw: Mapping[str, Any], said: Mapping[str, Any]) -> bool:
    return all(raw[name] == value for name, value in said.items() if name in raw)
