"""The Merkle tree over the sealed lines, kept as its frontier: the roots of the full subtrees, largest first.

A tree of 13 leaves is full subtrees of 8, 4 and 1: three peaks, as many as the size has binary ones. Appending and
the root need nothing else, so a journal of any length is carried on from some dozens of digests.
Source: RFC 9162 section 2.1 (the same tree as RFC 6962).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from itertools import islice
from typing import Final

AT_ONCE: Final = 1024
"""Leaves that are drawn before their nodes are hashed."""

DIGEST_BYTES: Final = 32
"""Length of a SHA-256 digest, and so of every leaf, node, peak and root."""


@dataclass(frozen=True, slots=True)
class Frontier:
    """A tree of `size` leaves: the roots of its full subtrees, largest first. Raises ValueError if impossible."""

    size: int
    peaks: tuple[bytes, ...]

    def __post_init__(self) -> None:
        if self.size < 0:
            raise ValueError(f"a tree has no {self.size} leaves; its size counts from 0")
        wanted = self.size.bit_count()
        if len(self.peaks) != wanted:
            raise ValueError(
                f"a tree of {self.size} leaves has {wanted} peaks, one a binary one; {len(self.peaks)} came"
            )
        wrong = [len(peak) for peak in self.peaks if len(peak) != DIGEST_BYTES]
        if wrong:
            raise ValueError(f"a leaf and a peak are SHA-256 digests of {DIGEST_BYTES} bytes; {wrong[0]} bytes came")


EMPTY: Final = Frontier(size=0, peaks=())
"""The tree before the first line."""


def leaf(line: bytes) -> bytes:
    """The leaf of one sealed line, byte for byte: SHA-256(00 || line), 32 bytes. Source: RFC 9162 section 2.1.1."""
    return sha256(b"\x00" + line).digest()


def node(left: bytes, right: bytes) -> bytes:
    """The digest over two subtrees: SHA-256(01 || left || right), 32 bytes. Source: RFC 9162 section 2.1.1."""
    return sha256(b"\x01" + left + right).digest()


def grown(frontier: Frontier, leaves: Iterable[bytes]) -> Frontier:
    """The frontier after more leaves, in their order. `leaves`: digests from `leaf`, drawn some at a time, so there may
    be millions. Raises ValueError if one of them is not 32 bytes."""
    drawn = iter(leaves)
    while some := list(islice(drawn, AT_ONCE)):
        if wrong := [len(each) for each in some if len(each) != DIGEST_BYTES]:
            raise ValueError(f"leaves are SHA-256 digests of {DIGEST_BYTES} bytes; {wrong[0]} bytes came")
        frontier = _grown_by(frontier, some)
    return frontier


def _grown_by(frontier: Frontier, level: list[bytes]) -> Frontier:
    """The frontier after these leaves, whole levels of the tree at a time."""
    size, rest, peaks = frontier.size + len(level), frontier.size, list(frontier.peaks)
    smallest_first: list[bytes] = []
    while level or rest:
        if rest & 1:  # a full subtree of this size stands before them
            level.insert(0, peaks.pop())
        if len(level) & 1:
            smallest_first.append(level.pop())
        level = [sha256(b"\x01" + left + right).digest() for left, right in zip(level[::2], level[1::2], strict=True)]
        rest >>= 1
    return Frontier(size=size, peaks=tuple(reversed(smallest_first)))


def root(frontier: Frontier) -> bytes:
    """The tree's root, 32 bytes; of the tree without leaves SHA-256 of nothing. Source: RFC 9162 section 2.1.1."""
    if not frontier.peaks:
        return sha256(b"").digest()
    *larger, whole = frontier.peaks
    for peak in reversed(larger):
        whole = node(peak, whole)
    return whole


def to_bytes(frontier: Frontier) -> bytes:
    """The peaks one after the other, largest first, 32 bytes each; the size is stored beside them."""
    return b"".join(frontier.peaks)


def from_bytes(size: int, data: bytes) -> Frontier:
    """The frontier of `size` leaves from what `to_bytes` gave. Raises ValueError where the two cannot be one tree."""
    peaks = tuple(data[start : start + DIGEST_BYTES] for start in range(0, len(data), DIGEST_BYTES))
    return Frontier(size=size, peaks=peaks)
