"""Problem details for programs. Source: RFC 9457."""

from __future__ import annotations

import json
from typing import Any

from flask import Response
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException


def answer(error: Exception) -> ResponseReturnValue | None:
    """The problem details for an exception; None for a fault of our own."""
    if isinstance(error, HTTPException):
        return problem(error.code or 500, "http", title=error.name)
    return None


def fault() -> ResponseReturnValue:
    """The problem details of a fault of our own."""
    return problem(500, "fault", title="Something went wrong on our side.")


def problem(status: int, code: str, *, title: str, **more: Any) -> Response:
    """One problem: `type`, `title`, `status`, `code`, and what else is told of it."""
    told = {"type": "about:blank", "title": title, "status": status, "code": code, **more}
    return Response(json.dumps(told), status=status, mimetype="application/problem+json")
