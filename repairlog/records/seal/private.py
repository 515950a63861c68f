"""Digests that stand in the journal for what may one day have to go: a caller's name, phone and story.

The journal holds the digest; value and salt stand beside it and are deleted together. Without the salt the digest
tells nothing, not even to one who tries every phone number there is, and every proof over the journal stays valid.
"""

from hashlib import sha256
from secrets import token_bytes
from typing import Final

from repairlog.records.seal.line import NotSealable, text_fault

SALT_BYTES: Final = 32
"""Length of a salt, one for each value: as long as the digest."""


def new_salt() -> bytes:
    """32 bytes from the system's randomness, for one value and never used again."""
    return token_bytes(SALT_BYTES)


def digest_of_private(value: str, *, salt: bytes) -> str:
    """SHA-256(salt || value in UTF-8) as 64 lower-case hex digits.

    `value`: held to the rules of sealed text, so that the same words give the same digest (NotSealable: empty, not
    NFC, half of a surrogate pair). `salt`: exactly 32 bytes, else ValueError.
    """
    if len(salt) != SALT_BYTES:
        raise ValueError(f"the salt of a private value is {SALT_BYTES} bytes; {len(salt)} came")
    fault = text_fault(value)
    if fault is not None:
        raise NotSealable(fault, path="", found=type(value).__name__)
    return sha256(salt + value.encode()).hexdigest()
