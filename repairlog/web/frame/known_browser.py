"""A browser in which a person has signed in before: it does not stand behind those who guess that name elsewhere."""

from __future__ import annotations

import secrets
from hashlib import sha256

from flask import Response, current_app, request
from itsdangerous import BadSignature, URLSafeSerializer

from repairlog.records.beside.sign_ins import search_name

KEPT = 180 * 24 * 3600
MOST = 12
"""Names that one browser is known for: a phone that goes round a crew."""


def mark_for(name: str) -> str:
    """The mark of this browser where that name has signed in before; else empty."""
    mark, names = _held()
    return mark if _of(name) in names else ""


def remember(response: Response, name: str) -> Response:
    """Have the browser keep that the name signed in there. The cookie says nothing of the name to whoever reads it."""
    mark, names = _held()
    kept = [_of(name), *(each for each in names if each != _of(name))][:MOST]
    response.set_cookie(
        _cookie(),
        _signer().dumps([mark or secrets.token_urlsafe(16), kept]),
        max_age=KEPT,
        path="/sign-in",
        secure=current_app.config["SESSION_COOKIE_SECURE"],
        httponly=True,
        samesite="Lax",
    )
    return response


def _held() -> tuple[str, list[str]]:
    try:
        mark, names = _signer().loads(request.cookies.get(_cookie(), ""))
    except BadSignature:
        return "", []
    return mark, names


def _cookie() -> str:
    return f"{current_app.config['SESSION_COOKIE_NAME']}_browser"


def _signer() -> URLSafeSerializer:
    return URLSafeSerializer(current_app.config["SECRET_KEY"], salt="a browser in which somebody signed in")


def _of(name: str) -> str:
    return sha256(current_app.config["SECRET_KEY"] + search_name(name).encode()).hexdigest()[:16]
