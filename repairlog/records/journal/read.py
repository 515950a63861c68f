"""Lines of the journal, read back as they were sealed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Generator, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

import orjson
from sqlalchemy import bindparam, select, type_coerce
from sqlalchemy.types import NullType

from repairlog.entries.entry import Standing, from_sealed
from repairlog.records.columns import IDS
from repairlog.records.store import Tx
from repairlog.records.tables.facts import ABOUT
from repairlog.records.tables.journal import HEAD, JOURNAL


class HeadMissing(Exception):
    """The row with the head of the tree is gone: somebody took it away."""

    code = "head_missing"


@dataclass(frozen=True, slots=True)
class Head:
    """Size of the journal and root of its tree (32 bytes)."""

    size: int
    root: bytes


@dataclass(frozen=True, slots=True)
class Known:
    """An entry that stands in the journal already: where, under which leaf, and its parsed line."""

    index: int
    leaf: bytes
    sealed: dict[str, Any]


_OF_IDS = select(JOURNAL).where(JOURNAL.c.id.in_(IDS))
_TOLD_OF = (
    select(ABOUT.c.subject_id, JOURNAL.c.line, JOURNAL.c.journal_index)
    .join(JOURNAL, JOURNAL.c.id == ABOUT.c.entry_id)
    .where(ABOUT.c.subject_id.in_(IDS), ABOUT.c.as_what.in_(bindparam("as_what", expanding=True)))
    .order_by(JOURNAL.c.journal_index)
    .distinct()
)
_FROM_ON = (  # the cells as the driver gives them
    select(
        JOURNAL.c.journal_index,
        type_coerce(JOURNAL.c.id, NullType()),
        type_coerce(JOURNAL.c.line, NullType()),
        type_coerce(JOURNAL.c.leaf, NullType()),
    )
    .where(JOURNAL.c.journal_index >= bindparam("first"))
    .order_by(JOURNAL.c.journal_index)
    .execution_options(yield_per=1000)
)


def head(tx: Tx) -> Head:
    """The head as it stands. Raises HeadMissing."""
    row = tx.connection.execute(select(HEAD.c.size, HEAD.c.root)).one_or_none()
    if row is None:
        raise HeadMissing
    return Head(row.size, row.root)


def known(tx: Tx, ids: Collection[UUID]) -> dict[UUID, Known]:
    """Those of these entries that stand in the journal."""
    found = tx.connection.execute(_OF_IDS, {"ids": list(ids)})
    return {row.id: Known(row.journal_index, row.leaf, orjson.loads(row.line)) for row in found}


def stories(tx: Tx, subjects: Collection[UUID], *, as_what: Collection[str]) -> dict[UUID, list[Standing]]:
    """The sealed entries of each subject's story, in the journal's order, before any correction.

    `as_what`: as what an entry must be about a subject to belong to its story.
    """
    told: dict[UUID, list[Standing]] = defaultdict(list)
    if not subjects:
        return told
    asked = {"ids": list(subjects), "as_what": list(as_what)}
    for subject, line, _index in tx.connection.execute(_TOLD_OF, asked):
        told[subject].append(from_sealed(orjson.loads(line)))
    return told


def lines(tx: Tx, *, first: int = 0) -> Generator[tuple[Any, str, Any, Any], None, None]:
    """Every line from index `first` on, as (index, id as it is sealed, line, leaf), streamed; close it to stop early.

    A whole number, text, bytes and bytes, unless somebody put another type there, as SQLite lets its owner do.
    """
    for rows in batches(tx, first=first):
        for index, id, line, leaf in rows:
            yield index, id_text(id), line, leaf


def batches(tx: Tx, *, first: int = 0) -> Generator[Sequence[Any], None, None]:
    """The same, some thousand rows at a time, each id as the driver has it; close it to stop early."""
    with tx.connection.execute(_FROM_ON, {"first": first}) as found:
        yield from found.partitions()


def id_text(stored: Any) -> str:
    """An id as the driver gives it, as text: read back as a UUID, it would make half of the work of a verification.

    What is no id at all, which SQLite lets stand, comes as no line can say it.
    """
    if not isinstance(stored, bytes):
        return str(stored) if isinstance(stored, UUID) else repr(stored)
    digits = stored.hex()
    return f"{digits[:8]}-{digits[8:12]}-{digits[12:16]}-{digits[16:20]}-{digits[20:]}"


def digits(ids: Sequence[Any]) -> bytes:
    """The hex digits of ids as the driver gives them, one after the other; of what is no id, something else."""
    if set(map(type, ids)) == {bytes}:
        return b"".join(ids).hex().encode()
    return "".join([id.hex if isinstance(id, UUID) else repr(id) for id in ids]).encode(errors="replace")


def lines_at(tx: Tx, indexes: Sequence[int]) -> list[bytes]:
    """The lines at these places, in the journal's order."""
    at = select(JOURNAL.c.line).where(JOURNAL.c.journal_index.in_(indexes)).order_by(JOURNAL.c.journal_index)
    return list(tx.connection.execute(at).scalars())
