"""What inspectors look at: listed beside the journal, a line a page."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from sqlalchemy import insert

from repairlog.entries.ids import new_uuid7
from repairlog.records.store import Store
from repairlog.records.tables.beside import LOOKED_AT

LONGEST = 2000
"""Characters of an address that are kept: whatever we are asked by is shorter."""


def list_look(store: Store, *, person: UUID, at: datetime, page: str, address: str, subject: UUID | None) -> None:
    """List that this person was shown that page at that moment. `page`: its name among ours; `subject`: the leak or
    call that it is about."""
    row = {"id": new_uuid7(at), "person_id": person, "at": at, "page": page, "subject_id": subject}
    with store.writing() as tx:
        tx.connection.execute(insert(LOOKED_AT).values({**row, "address": address[:LONGEST]}))
