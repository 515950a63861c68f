"""Passwords: kept as an Argon2id hash with its own salt and cost, never as they are. Source: RFC 9106."""

from __future__ import annotations

import unicodedata

import argon2
from argon2.exceptions import InvalidHashError, VerificationError

_HASHER = argon2.PasswordHasher()  # the second choice of RFC 9106, section 4: 64 MiB, three passes

LEAST = 8
"""Characters of a password at the least. Source: NIST SP 800-63B, section 5.1.1.2 of revision 3."""

LONGEST = 1000
"""Characters at the most: a text without end would keep the machine busy."""

_OF_NOBODY = _HASHER.hash("nobody's")


class PasswordUnfit(Exception):
    """It cannot be anybody's password. `code`: too short or too long; `facts`: the `least` or `longest`."""

    def __init__(self, code: str, **facts: str) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts


def demand_fit(password: str) -> None:
    """Raise PasswordUnfit where it is too short or too long to be taken as a new password."""
    if len(_same(password)) < LEAST:
        raise PasswordUnfit("password_too_short", least=str(LEAST))
    if len(password) > LONGEST:
        raise PasswordUnfit("password_too_long", longest=str(LONGEST))


def hashed(password: str) -> str:
    """What is kept of a password."""
    return _HASHER.hash(_same(password))


def fits(password: str, kept: str | None) -> bool:
    """Whether it is the password that was kept so. Where there is none, it takes as long to say no."""
    try:
        _HASHER.verify(kept or _OF_NOBODY, _same(password))
    except (VerificationError, InvalidHashError):
        return False
    return kept is not None


def _same(password: str) -> str:
    """A phone and a desk may write one letter in two ways. Source: NIST SP 800-63B, section 5.1.1.2: NFKC."""
    return unicodedata.normalize("NFKC", password)
