"""In whose name a program sends: by the token that it shows. The token itself goes no further than here."""

from __future__ import annotations

from flask import current_app, request

from repairlog.access import Actor
from repairlog.records.beside.credentials import actor_of_token
from repairlog.records.beside.tokens import was_closed
from repairlog.records.store import Store

REALM = 'Bearer realm="repairlog"'
"""Source: RFC 6750 section 3, which asks for no error where no token was shown."""


class NoSender(Exception):
    """No token came, or none of ours. `code`: which; `challenge`: what the header WWW-Authenticate says."""

    def __init__(self, code: str, *, challenge: str) -> None:
        super().__init__(code)
        self.code = code
        self.challenge = challenge


def store() -> Store:
    """The book that is written in."""
    found: Store = current_app.extensions["repairlog.store"]
    return found


def sender() -> Actor:
    """Whose token came with this request. Raises NoSender."""
    shown = request.authorization
    if shown is None or shown.type != "bearer" or not shown.token:
        raise NoSender("token_missing", challenge=REALM)
    if (actor := actor_of_token(store(), shown.token)) is None:
        code = "token_closed" if was_closed(store(), shown.token) else "token_unknown"
        raise NoSender(code, challenge=f'{REALM}, error="invalid_token"')
    return actor
