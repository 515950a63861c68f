"""Names of entries: UUID version 7 where a person's device made one, version 8 where an import works it out.

An id is a name, never a time: what happened when is read from the entry, not from the digits of its id.
Source of both layouts: RFC 9562.
"""

import re
import secrets
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from hashlib import sha256
from typing import Final, Literal
from uuid import UUID

NAMESPACE: Final = UUID("e44985c0-f81d-4cd8-aa34-cfd46d2df71f")
"""The namespace of every version 8 id of RepairLog. Fixed for ever: another would take an old list in twice."""

RANDOM_BYTES: Final = 10
"""Bytes that hold the 74 random bits of a version 7 id."""

_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)
WRITTEN: Final = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
"""How an id is written, of whatever version."""

WRITTEN_7: Final = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
"""The same, of version 7."""


def uuid7(*, at: datetime, random: bytes) -> UUID:
    """The version 7 id of a moment and of chance: 48 bits of Unix milliseconds, then 74 random bits.

    `at`: aware, from 1970 on, cut to the millisecond. `random`: 10 bytes, of which the last 74 bits are used.
    Raises ValueError otherwise. Source: RFC 9562 section 5.7.
    """
    if at.utcoffset() is None:
        raise ValueError(f"{at.isoformat()} names no zone; a moment is aware, give it its offset from UTC")
    if at < _EPOCH:
        raise ValueError(f"{at.isoformat()} lies before 1970; a version 7 id counts from there")
    if len(random) != RANDOM_BYTES:
        raise ValueError(f"a version 7 id takes {RANDOM_BYTES} random bytes; {len(random)} came")
    milliseconds = (at - _EPOCH) // timedelta(milliseconds=1)
    chance = int.from_bytes(random)
    bits = milliseconds << 80 | (chance >> 62 & 0xFFF) << 64 | chance & (1 << 62) - 1
    return _marked(bits, version=7)


def new_uuid7(at: datetime) -> UUID:
    """A new version 7 id of the moment `at` (aware, from 1970 on), its chance from the system's randomness."""
    return uuid7(at=at, random=secrets.token_bytes(RANDOM_BYTES))


def name_based(namespace: UUID, name: bytes) -> UUID:
    """The version 8 id of a name: the first 128 bits of SHA-256(namespace || name). Source: RFC 9562 appendix B.2."""
    return _marked(int.from_bytes(sha256(namespace.bytes + name).digest()[:16]), version=8)


def uuid8(*parts: str) -> UUID:
    """The version 8 id of `parts` in their order: the same parts, cut the same way, always give the same id.

    Each part goes in as its length in bytes, a colon and its UTF-8, so ("a", "bc") is not ("ab", "c"). Parts may be
    empty; text is taken as it comes, normalised or not. Raises ValueError without any part, or for text that UTF-8
    cannot carry.
    """
    if not parts:
        raise ValueError("an id is worked out from at least one part; none came")
    texts = [part.encode() for part in parts]
    return name_based(NAMESPACE, b"".join(b"%d:%b" % (len(text), text) for text in texts))


def is_version(uuid_text: str, version: Literal[7, 8]) -> bool:
    """Whether `uuid_text` is an id in our form (see `read_id`) and of that version; False for any other text."""
    return WRITTEN.fullmatch(uuid_text) is not None and UUID(uuid_text).version == version


@lru_cache(maxsize=8192)  # the same few ids are read over and over while a call is posted
def read_id(text: str) -> UUID:
    """The id that `text` writes: 32 lower-case hex digits with hyphens, one form only, since ids are sealed as text.

    Any version is read. Raises ValueError for capitals, braces, a `urn:` before it, missing hyphens and all else.
    """
    if not WRITTEN.fullmatch(text):
        raise ValueError(
            f"{text!r} is no id; one is written 019cbec3-7c40-7a10-8b1c-2f7f1d2c3b4a: lower case, with hyphens"
        )
    return UUID(text)


def as_id(value: object) -> UUID | None:
    """The id that a text writes; None for any other text, and for what is no text."""
    try:
        return read_id(value) if isinstance(value, str) else None
    except ValueError:
        return None


def _marked(bits: int, *, version: int) -> UUID:
    # Version in bits 48 to 51, variant 10 in bits 64 and 65 (RFC 9562 sections 4.1 and 4.2), counted from the left.
    cleared = bits & ~(0xF << 76) & ~(0b11 << 62)
    return UUID(int=cleared | version << 76 | 0b10 << 62)
