"""Whether an entry that is already there came again with the same content, or under the same id with another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import bindparam, select

from repairlog.access import scope_of
from repairlog.entries.entry import Entry
from repairlog.entries.moments import moment_text
from repairlog.records import seal
from repairlog.records.columns import Id
from repairlog.records.journal import Known
from repairlog.records.post.sealing import day_in
from repairlog.records.post.sent import Sent
from repairlog.records.queries.settings import subjects
from repairlog.records.store import Tx
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.tables.facts import ENTRY

_SUBJECT_AND_ZONE = select(ENTRY.c.subject_id, ENTRY.c.zone).where(ENTRY.c.id == bindparam("id", type_=Id))


class Conflict(Exception):
    """An entry of the same id stands with other content. `stands`, `came`: both, as they would be sealed; `stands` is
    empty where the asker may not see it."""

    code = "conflict"

    def __init__(self, id: UUID, *, stands: Mapping[str, Any], came: Mapping[str, Any]) -> None:
        super().__init__(f"entry {id} stands already and says something else; nothing was changed")
        self.id = id
        self.stands = stands
        self.came = came


def fresh_of(tx: Tx, entries: Sequence[Entry], *, standing: Mapping[UUID, Known]) -> list[Entry]:
    """Those entries that are not there yet, in their order, each once.

    Raises Conflict where one of the same id says something else, in the journal or within the call.
    """
    salts = _salts(tx, standing)
    fresh: dict[UUID, Entry] = {}
    for entry in entries:
        came = content(entry)
        if known := standing.get(entry.id):
            stands = _content_of(known.sealed, like=came)
            if stands != came or not _same_private(entry, known.sealed, salts):
                raise Conflict(entry.id, stands=stands, came=came)
        elif entry.id in fresh:
            stands = content(fresh[entry.id])
            if stands != came or dict(fresh[entry.id].private) != dict(entry.private):
                raise Conflict(entry.id, stands=stands, came=came)
        else:
            fresh[entry.id] = entry
    return list(fresh.values())


def as_shown(tx: Tx, conflict: Conflict, *, sent: Sent) -> Conflict:
    """The conflict as whoever sent it may see it: what stands only within their scope, since ids can be worked out."""
    entry = tx.connection.execute(_SUBJECT_AND_ZONE, {"id": conflict.id}).one_or_none()
    if entry is None or sent.actor.sure == "system":
        return conflict  # both came in one call, or the asker holds the book
    scope = scope_of(sent.actor, on=day_in(entry.zone, sent.moments.received))
    seen = subjects(scope, tx, ids=[entry.subject_id])
    return conflict if seen else Conflict(conflict.id, stands={}, came=conflict.came)


def content(entry: Entry) -> dict[str, Any]:
    """What counts as the content of an entry: what was said; who did and who typed, and when it was written where a
    device said so. For an id made by an import, what was said alone."""
    if entry.id.version == 8:
        return {"said": entry.said}
    same: dict[str, Any] = {"said": entry.said, "did": list(entry.did), "typed": str(entry.typed)}
    return same | ({"written": moment_text(entry.written)} if entry.written else {})


def _content_of(sealed: Mapping[str, Any], *, like: Mapping[str, Any]) -> dict[str, Any]:
    by, moments = sealed["by"], sealed["moments"]
    every = {"said": sealed["said"], "did": by["did"], "typed": by["typed"], "written": moments.get("written")}
    return {name: every[name] for name in like}


def _salts(tx: Tx, standing: Mapping[UUID, Known]) -> dict[tuple[UUID, str], bytes]:
    """Salts of the private values that are still there."""
    with_private = [id for id, known in standing.items() if "private" in known.sealed]
    if not with_private:
        return {}
    columns = (PRIVATE_VALUE.c.entry_id, PRIVATE_VALUE.c.path, PRIVATE_VALUE.c.salt)
    found = select(*columns).where(PRIVATE_VALUE.c.entry_id.in_(with_private), PRIVATE_VALUE.c.salt.is_not(None))
    return {(row.entry_id, row.path): row.salt for row in tx.connection.execute(found)}


def _same_private(entry: Entry, sealed: Mapping[str, Any], salts: Mapping[tuple[UUID, str], bytes]) -> bool:
    """Compared through the salt; a value whose salt is gone is not compared."""
    digests = sealed.get("private", {})
    if digests.keys() != entry.private.keys():
        return False
    return all(
        seal.digest_of_private(value, salt=salt) == digests[path]
        for path, value in entry.private.items()
        if (salt := salts.get((entry.id, path)))
    )
