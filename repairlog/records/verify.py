"""Verifying the journal: its lines, leaves and tree, and the texts that its lines name, without any other table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from itertools import islice
from typing import Any

from sqlalchemy import select, type_coerce
from sqlalchemy.types import NullType

from repairlog.records import journal, seal
from repairlog.records.store import Store, Tx, any_text, in_bulk
from repairlog.records.tables.journal import HEAD
from repairlog.records.tables.rulebook_texts import all_texts
from repairlog.trade.rulebook.kept import digest_of, digest_of_text

ID = b'"id":"'
"""What stands before a line's own id."""

UNDER = b'"rulebook":"'
"""What stands before the digest of the rulebook under which a line was sealed."""

_HEADS = select(
    *(type_coerce(HEAD.c[name], NullType()) for name in ("size", "peaks", "root"))
)  # as the driver has them


@dataclass(frozen=True, slots=True)
class Noted:
    """A head that somebody noted earlier: size of the journal, and root of its tree (32 bytes)."""

    size: int
    root: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """`code`: what is wrong. `index`: of the line, None where it is the tree, the head or the text of a rulebook."""

    code: str
    index: int | None = None
    stands: str = ""
    should: str = ""


@dataclass(frozen=True, slots=True)
class Verified:
    """`size`, `root`: of the tree that the lines themselves make (root in 32 bytes). `problems`: none if it holds."""

    size: int
    root: bytes
    problems: tuple[Problem, ...]


def head(store: Store) -> journal.Head:
    """The head as it stands, unverified: size and root (32 bytes). Raises journal.HeadMissing."""
    with store.reading() as tx:
        return journal.head(tx)


def verify(store: Store, *, against: Noted | None = None) -> Verified:
    """Check every line against its leaf, the tree against the head, texts of rulebooks against their digests, and, if
    given, that the tree of the noted size had the noted root. Reads one state of the journal from end to end."""
    with store.reading() as tx, in_bulk():
        return _verified(tx, against)


def _verified(tx: Tx, against: Noted | None) -> Verified:
    problems: list[Problem] = []
    required: set[bytes] = set()
    with any_text(tx):
        leaves = _leaves(tx, problems, required)
        then = seal.grown(seal.EMPTY, islice(leaves, against.size if against else 0))
        frontier = seal.grown(then, leaves)
        problems += _head_problems(tx, frontier)
        problems += _text_problems(tx, required={each.decode() for each in required})
    if against:
        problems += _noted_problems(against, frontier, then)
    return Verified(frontier.size, seal.root(frontier), tuple(problems))


def _leaves(tx: Tx, problems: list[Problem], required: set[bytes]) -> Iterator[bytes]:
    """The leaf that each line itself makes, in the journal's order; what is wrong with a line goes to `problems`, the
    digest of the rulebook under which it was sealed to `required`."""
    expected = 0
    for rows in journal.batches(tx):
        if sound := _sound(rows, expected):
            lines = [row[2] for row in rows]
            said = {line[at + len(UNDER) : at + len(UNDER) + 65] for line in lines if (at := line.find(UNDER)) >= 0}
            required |= {each[:64] for each in said if len(each) == 65 and each.endswith(b'"')}
            expected += len(rows)
            yield from sound
            continue
        required |= {digest for _index, _id, line, _leaf in rows if (digest := _rulebook_in(line))}
        for index, id, stored, leaf in rows:
            problems += _line_problems(index, expected, id=journal.id_text(id), stored=stored, leaf=leaf)
            expected = index + 1 if isinstance(index, int) else expected + 1
            yield seal.leaf(_in_bytes(stored))


def _sound(rows: Sequence[Any], first: int) -> Sequence[bytes] | None:
    """The leaves of rows that are all what they should be, asked of them together; None if any is not."""
    indexes, ids, lines, leaves = zip(*rows, strict=True)
    if indexes != tuple(range(first, first + len(rows))) or set(map(type, lines)) != {bytes}:
        return None
    true = tuple([sha256(b"\x00" + line).digest() for line in lines])  # `seal.leaf`, without a call for each
    said = b"".join([line[(at := line.rfind(ID) + len(ID)) : at + 36] for line in lines])  # no line says it twice
    if true != leaves or said.replace(b"-", b"") != journal.digits(ids):
        return None
    elsewhere = [index for index, line in zip(indexes, lines, strict=True) if b'"index":%d,' % index not in line]
    return None if elsewhere else true


def _rulebook_in(line: Any) -> bytes:
    """The digest of the rulebook that a line says it was sealed under; empty where it says none."""
    at = line.find(UNDER) if isinstance(line, bytes) else -1
    digest = line[at + len(UNDER) : at + len(UNDER) + 65] if at >= 0 else b""
    return digest[:64] if digest.endswith(b'"') and len(digest) == 65 else b""


def _line_problems(index: Any, expected: int, *, id: str, stored: Any, leaf: Any) -> Iterator[Problem]:
    """What is wrong with one line. Nothing is taken for granted: SQLite lets any type stand in any column."""
    line, at = _in_bytes(stored), index if isinstance(index, int) else expected
    if index != expected:
        yield Problem(code="line_missing", index=expected, stands=str(index), should=str(expected))
    if line is not stored:
        yield Problem(code="line_no_bytes", index=at, stands=type(stored).__name__)
    if seal.leaf(line) != leaf:
        yield Problem(code="line_altered", index=at, stands=seal.leaf(line).hex(), should=_hex(leaf))
    if b'"id":"%b"' % id.encode(errors="replace") not in line:
        yield Problem(code="id_altered", index=at)
    if b'"index":%d,' % at not in line:
        yield Problem(code="line_of_another_place", index=at)


def _in_bytes(stored: Any) -> bytes:
    return stored if isinstance(stored, bytes) else str(stored).encode(errors="surrogateescape")


def _hex(stored: Any) -> str:
    return stored.hex() if isinstance(stored, bytes) else ascii(stored)


def _head_problems(tx: Tx, frontier: seal.Frontier) -> Iterator[Problem]:
    heads = tx.connection.execute(_HEADS).all()
    if len(heads) != 1:
        yield Problem(code="head_missing", stands=str(len(heads)), should="1")
        return
    size, peaks, root = tuple(heads[0])
    if size != frontier.size:
        yield Problem(code="size_differs", stands=str(frontier.size), should=ascii(size))
    if root != seal.root(frontier):
        yield Problem(code="root_differs", stands=seal.root(frontier).hex(), should=_hex(root))
    if peaks != seal.to_bytes(frontier):
        yield Problem(code="peaks_differ", stands=seal.to_bytes(frontier).hex(), should=_hex(peaks))


def _text_problems(tx: Tx, *, required: set[str]) -> Iterator[Problem]:
    """Texts of rulebooks that are not what their digest says, and those under which lines were sealed and that are not
    there."""
    kept = all_texts(tx)
    for each in kept:
        made = digest_of(digest_of_text(each.text), extended=each.extends)
        if made != each.digest:
            yield Problem(code="rulebook_altered", stands=made, should=each.digest)
    there = {each.digest for each in kept}
    for digest in sorted(({*required} | {of for each in kept for of in each.extends}) - there):
        yield Problem(code="rulebook_missing", should=digest)


def _noted_problems(against: Noted, now: seal.Frontier, then: seal.Frontier) -> Iterator[Problem]:
    if then.size < against.size:
        yield Problem(code="shorter_than_noted", stands=str(now.size), should=str(against.size))
    elif seal.root(then) != against.root:
        yield Problem(code="not_the_noted_journal", stands=seal.root(then).hex(), should=against.root.hex())
