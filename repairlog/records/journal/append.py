"""Appending: the head is locked last of all locks and held until the commit, so commit order is journal order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import insert, select, update

from repairlog.entries.ids import read_id
from repairlog.records import seal
from repairlog.records.store import Tx
from repairlog.records.tables.journal import HEAD, JOURNAL


@dataclass(frozen=True, slots=True)
class Appended:
    """Where an entry came to stand: its index, from 0, and its leaf (32 bytes)."""

    id: UUID
    index: int
    leaf: bytes


_LOCKED_HEAD = select(HEAD.c.size, HEAD.c.peaks).with_for_update()
_NEXT_LINES = insert(JOURNAL)
_HEAD_ON = update(HEAD)


def append(tx: Tx, drafts: Sequence[Mapping[str, Any]]) -> list[Appended]:
    """Seal these lines at the next places and carry the head on. `drafts`: sealed lines that lack only `index`."""
    row = tx.connection.execute(_LOCKED_HEAD).one()
    frontier = seal.from_bytes(row.size, row.peaks)
    done, rows = [], []
    for index, draft in enumerate(drafts, start=frontier.size):
        line = seal.canonical({**draft, "index": index})
        leaf = seal.leaf(line)
        id = read_id(draft["said"]["id"])
        done.append(Appended(id, index, leaf))
        rows.append({"journal_index": index, "id": id, "line": line, "leaf": leaf})
    tx.connection.execute(_NEXT_LINES, rows)
    frontier = seal.grown(frontier, (each.leaf for each in done))
    now = {"size": frontier.size, "peaks": seal.to_bytes(frontier), "root": seal.root(frontier)}
    tx.connection.execute(_HEAD_ON, now)
    return done
