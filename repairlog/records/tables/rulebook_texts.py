"""The texts of rulebooks that entries name: kept once, by digest, and read back for ever."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import Any

from sqlalchemy import Row, bindparam, insert, select

from repairlog.entries.entry import Entry
from repairlog.records.store import Tx
from repairlog.records.tables.journal import RULEBOOK_TEXT
from repairlog.trade.rulebook import Rulebook
from repairlog.trade.rulebook.kept import Kept, RulebookUnreadable

NAME_A_RULEBOOK = ("rulebook_adopted", "rule_confirmed")
"""Kinds of entries that name the digest of a rulebook."""

_DIGEST = re.compile(r"[0-9a-f]{64}")

_DIGESTS: Any = bindparam("digests", expanding=True)
_THERE = select(RULEBOOK_TEXT.c.digest).where(RULEBOOK_TEXT.c.digest.in_(_DIGESTS))
_TEXTS = select(RULEBOOK_TEXT).where(RULEBOOK_TEXT.c.digest.in_(_DIGESTS))


def keep_texts(tx: Tx, entries: Sequence[Entry]) -> None:
    """Keep the texts of the rulebooks that these entries name, or a correction among them names anew, and of those that
    they extend; what is there already stays as it is. Raises RulebookUnreadable where one that is named is nowhere."""
    named = {str(entry.said["digest"]) for entry in entries if entry.kind in NAME_A_RULEBOOK}
    anew = {to for entry in entries for to in _puts(entry) if _DIGEST.fullmatch(to)}  # perhaps a file's, though
    if not named | anew:
        return
    kept = _kept_among(tx, named | anew)
    texts: dict[str, Kept] = {}
    for digest in sorted((named | anew) - kept):
        found = tx.rulebooks.texts(digest)
        if not found and digest in named:
            raise RulebookUnreadable(digest)
        texts |= {each.digest: each for each in found}
    there = _kept_among(tx, texts) if texts else set()
    rows = [
        {
            "digest": each.digest,
            "id": each.id,
            "title": each.title,
            "text": each.text,
            "extends": " ".join(each.extends),
        }
        for digest, each in sorted(texts.items())
        if digest not in there
    ]
    if rows:  # two who adopt the same at once: the later one's call is run again
        tx.connection.execute(insert(RULEBOOK_TEXT), rows)


def _puts(entry: Entry) -> list[str]:
    return [str(change["to"]) for change in entry.said.get("changes", ()) if "to" in change]


def _kept_among(tx: Tx, digests: Iterable[str]) -> set[str]:
    return set(tx.connection.execute(_THERE, {"digests": list(digests)}).scalars())


def rulebook(tx: Tx, digest: str) -> Rulebook:
    """The rulebook of that digest as it was adopted, whatever became of its file. Raises RulebookUnreadable."""
    if digest not in tx.rulebooks.opened:
        texts = kept_texts(tx, digest)
        if not texts:
            raise RulebookUnreadable(digest)
        tx.rulebooks.opened[digest] = tx.rulebooks.read(texts)
    return tx.rulebooks.opened[digest]


def kept_texts(tx: Tx, digest: str) -> list[Kept]:
    """The kept text of that rulebook and of all it extends, what is extended first; none where it is not kept."""
    found: dict[str, Kept] = {}
    wanted = {digest}
    while wanted:
        rows = {row.digest: _kept(row) for row in tx.connection.execute(_TEXTS, {"digests": sorted(wanted)})}
        found |= rows
        wanted = {each for kept in rows.values() for each in kept.extends} - found.keys()
    return list(_in_order(digest, found, done=set()))


def _in_order(digest: str, found: dict[str, Kept], done: set[str]) -> Iterator[Kept]:
    if digest in done or digest not in found:
        return
    done.add(digest)
    for each in found[digest].extends:
        yield from _in_order(each, found, done)
    yield found[digest]


def all_texts(tx: Tx) -> Collection[Kept]:
    """Every text that is kept."""
    return [_kept(row) for row in tx.connection.execute(select(RULEBOOK_TEXT).order_by(RULEBOOK_TEXT.c.digest))]


def _kept(row: Row[tuple[str, ...]]) -> Kept:
    return Kept(digest=row.digest, id=row.id, title=row.title, text=row.text, extends=tuple(row.extends.split()))
