"""Who sent which file. One that no entry names within 90 days goes again."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from uuid import UUID

from sqlalchemy import delete, exists, func, select

from repairlog.records import blobs
from repairlog.records.blobs import Put
from repairlog.records.store import Store
from repairlog.records.tables.beside import BLOB
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.picture import Change
from repairlog.records.tables.write import write

KEPT = timedelta(days=90)
"""How long a file is kept that no entry names."""

_ATTACHED = OF_KIND["attached"]


def note_file(store: Store, file: Put, *, media_type: str, person: UUID, at: datetime) -> None:
    """Note who sent a file that lies in its folder; sent again, it is kept from then on."""
    row = {
        "digest": file.digest,
        "person_id": person,
        "length": file.length,
        "media_type": media_type,
        "came_at": at,
    }
    with store.writing() as tx:
        write(tx, Change(puts={BLOB: [row]}))


def is_own(store: Store, digest: str, *, person: UUID) -> bool:
    """Whether that person sent the file."""
    mine = select(exists().where(BLOB.c.digest == digest, BLOB.c.person_id == person))
    with store.reading() as tx:
        return bool(tx.connection.execute(mine).scalar())


def unnamed(store: Store, *, at: datetime) -> list[str]:
    """The files that came more than 90 days before that moment and that no entry names, by digest."""
    named = exists().where(_ATTACHED.c.digest == BLOB.c.digest)
    rows = select(BLOB.c.digest).where(~named).group_by(BLOB.c.digest).having(func.max(BLOB.c.came_at) < at - KEPT)
    with store.reading() as tx:
        return list(tx.connection.execute(rows.order_by(BLOB.c.digest)).scalars())


def drop_unnamed(store: Store, folder: Path, *, at: datetime) -> int:
    """Delete those files with what is noted of them; how many there were."""
    found = unnamed(store, at=at)
    for digest in found:
        with store.writing() as tx:
            named = tx.connection.execute(select(exists().where(_ATTACHED.c.digest == digest))).scalar()
            if not named:  # an entry may have come meanwhile
                tx.connection.execute(delete(BLOB).where(BLOB.c.digest == digest))
                blobs.take_away(folder, digest)
    return len(found)


def named_files(store: Store) -> list[str]:
    """The digest of every file that some entry names, void ones too."""
    with store.reading() as tx:
        return list(tx.connection.execute(select(_ATTACHED.c.digest).distinct().order_by(_ATTACHED.c.digest)).scalars())
