"""Passwords: kept as an Argon2id hash with its own salt and cost, never as they are. Source: RFC 9106."""

from __future__ import annotations

import argon2
from argon2.exceptions import InvalidHashError, VerificationError

_HASHER = argon2.PasswordHasher()  # the second choice of RFC 9106, section 4: 64 MiB, three passes

LEAST = 8
"""Characters of a password at the least. Source: NIST SP 800-63B, section 5.1.1.2 of revision 3."""

_OF_NOBODY = _HASHER.hash("nobody's")


def hashed(password: str) -> str:
    """What is kept of a password."""
    return _HASHER.hash(password)


def fits(password: str, kept: str | None) -> bool:
    """Whether it is the password that was kept so. Where there is none, it takes as long to say no."""
    try:
        _HASHER.verify(kept or _OF_NOBODY, password)
    except (VerificationError, InvalidHashError):
        return False
    return kept is not None
