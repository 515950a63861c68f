"""The Merkle tree over the sealed lines, kept as its frontier: the roots of the full subtrees, largest first.

A tree of 13 leaves is full subtrees of 8, 4 and 1: three peaks, as many as the size has binary ones. Appending and
the root need nothing else, so a journal of any length is carried on from some dozens of digests.
Source: RFC 9162 section 2.1 (the same tree as RFC 6962).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

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
    """The frontier after more leaves, in their order. `leaves`: digests from `leaf`, drawn one by one, so there may be
    millions. Raises ValueError if one of them is not 32 bytes."""
    peaks, size = list(frontier.peaks), frontier.size
    for peak in leaves:
        if len(peak) != DIGEST_BYTES:
            raise ValueError(f"leaves are SHA-256 digests of {DIGEST_BYTES} bytes; {len(peak)} bytes came")
        rest = size
        while rest & 1:  # two full subtrees of one size become one, as a carry does in binary
            peak = node(peaks.pop(), peak)
            rest >>= 1
        peaks.append(peak)
        size += 1
    return Frontier(size=size, peaks=tuple(peaks))


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
