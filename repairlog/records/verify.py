"""Verifying the journal: its lines, leaves and tree alone, without any other table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from sqlalchemy import select

from repairlog.records import journal, seal
from repairlog.records.store import Store, Tx
from repairlog.records.tables.journal import HEAD


@dataclass(frozen=True, slots=True)
class Noted:
    """A head that somebody noted earlier: size of the journal, and root of its tree (32 bytes)."""

    size: int
    root: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """`code`: what is wrong. `index`: of the line, None where it is the tree or the head."""

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
    """The head as it stands, unverified: size and root (32 bytes)."""
    with store.reading() as tx:
        return journal.head(tx)


def verify(store: Store, *, against: Noted | None = None) -> Verified:
    """Check every line against its leaf, the tree against the head, and, if given, that the tree of the noted size had
    the noted root. Reads one state of the journal from end to end."""
    with store.reading() as tx:
        return _verified(tx, against)


def _verified(tx: Tx, against: Noted | None) -> Verified:
    problems: list[Problem] = []
    leaves = _leaves(tx, problems)
    then = seal.grown(seal.EMPTY, islice(leaves, against.size if against else 0))
    frontier = seal.grown(then, leaves)
    problems += _head_problems(tx, frontier)
    if against:
        problems += _noted_problems(against, frontier, then)
    return Verified(frontier.size, seal.root(frontier), tuple(problems))


def _leaves(tx: Tx, problems: list[Problem]) -> Iterator[bytes]:
    """The leaf that each line itself makes, in the journal's order; what is wrong with a line goes to `problems`."""
    for place, (index, id, line, leaf) in enumerate(journal.lines(tx)):
        true_leaf = seal.leaf(line)
        if index != place or true_leaf != leaf or b'"id":"%b"' % id.encode() not in line:
            problems += _line_problems(index, place, leaf=leaf, true_leaf=true_leaf)
        if b'"index":%d,' % place not in line:
            problems.append(Problem(code="line_of_another_place", index=index))
        yield true_leaf


def _line_problems(index: int, expected: int, *, leaf: bytes, true_leaf: bytes) -> Iterator[Problem]:
    if index != expected:
        yield Problem(code="line_missing", index=expected, stands=str(index), should=str(expected))
    if true_leaf != leaf:
        yield Problem(code="line_altered", index=index, stands=true_leaf.hex(), should=bytes(leaf).hex())
    if index == expected and true_leaf == leaf:
        yield Problem(code="id_altered", index=index)


def _head_problems(tx: Tx, frontier: seal.Frontier) -> Iterator[Problem]:
    heads = tx.connection.execute(select(HEAD)).all()
    if len(heads) != 1:
        yield Problem(code="head_missing", stands=str(len(heads)), should="1")
        return
    head = heads[0]
    if head.size != frontier.size:
        yield Problem(code="size_differs", stands=str(frontier.size), should=str(head.size))
    if bytes(head.root) != seal.root(frontier):
        yield Problem(code="root_differs", stands=seal.root(frontier).hex(), should=bytes(head.root).hex())
    if bytes(head.peaks) != seal.to_bytes(frontier):
        yield Problem(code="peaks_differ", stands=seal.to_bytes(frontier).hex(), should=bytes(head.peaks).hex())


def _noted_problems(against: Noted, now: seal.Frontier, then: seal.Frontier) -> Iterator[Problem]:
    if then.size < against.size:
        yield Problem(code="shorter_than_noted", stands=str(now.size), should=str(against.size))
    elif seal.root(then) != against.root:
        yield Problem(code="not_the_noted_journal", stands=seal.root(then).hex(), should=against.root.hex())
