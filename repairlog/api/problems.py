"""Problem details for programs: each with a `code` that stays the same. Source: RFC 9457."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from flask import Blueprint, Response, current_app
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException, NotFound

from repairlog.access import Refused
from repairlog.api.sender import NoSender
from repairlog.intake import Complaint, NotUnderstood, WaitsFor
from repairlog.intake.body import Unreadable
from repairlog.records.post import Conflict
from repairlog.records.store import Away, Busy
from repairlog.trade.rulebook.kept import RulebookUnreadable
from repairlog.words import answers, complaints

STATUS = {
    "waits": 202,
    "bad_request": 400,
    "json_unreadable": 400,
    "token_closed": 401,
    "token_missing": 401,
    "token_unknown": 401,
    "refused": 403,
    "no_such_address": 404,
    "method_not_allowed": 405,
    "conflict": 409,
    "too_large": 413,
    "not_json": 415,
    "not_understood": 422,
    "fault": 500,
    "away": 503,
    "busy": 503,
    "rulebook_unreadable": 503,
}
"""By code. What waits is kept, and recorded by itself once it can be: 202, and no receipt yet."""

OF_HTTP = {404: "no_such_address", 405: "method_not_allowed", 413: "too_large", 415: "not_json"}

MOST_TOLD = 2000
"""Complaints that one answer tells at the most; of the others, how many there are."""

AGAIN_IN = "2"
"""Seconds after which a call that found the book busy may come again."""

routes = Blueprint("problems", __name__)


@routes.get("/api/problems/<code>")
def told(code: str) -> ResponseReturnValue:
    """What a problem's `type` leads to: its status, its title, and what to do."""
    if code not in STATUS:
        raise NotFound
    anywhere = {"line": "N", "column": "N", "most": _most(), "digest": "DIGEST"}
    told = {"code": code, "status": STATUS[code], "title": answers.title(code)}
    told["detail"] = answers.detail(code, anywhere)
    return Response(json.dumps(told), mimetype="application/json")


def answer(error: Exception) -> ResponseReturnValue | None:
    """The problem details for an exception; None for a fault of our own."""
    match error:
        case NotUnderstood():
            return _not_understood(error)
        case Refused():
            return problem("refused", {"kind": error.kind}, entry=error.position, kind=error.kind)
        case WaitsFor():
            return problem("waits", waits_for=sorted(map(str, error.ids)))
        case Conflict():
            return problem("conflict", id=str(error.id), stands=error.stands, came=error.came)
        case Unreadable():
            where = {"line": str(error.line), "column": str(error.column)}
            return problem("json_unreadable", where, line=error.line, column=error.column)
        case NoSender():
            return _with(problem(error.code), {"WWW-Authenticate": error.challenge})
        case Away() | Busy():
            return _with(problem(error.code), {"Retry-After": AGAIN_IN})
        case RulebookUnreadable():
            return problem(error.code, error.facts, digest=error.facts["digest"])
        case HTTPException():
            return _of_http(error)
    return None


def fault() -> ResponseReturnValue:
    """The problem details of a fault of our own."""
    return problem("fault")


def problem(code: str, facts: Mapping[str, str] | None = None, *, status: int = 0, **more: Any) -> Response:
    """One problem: `type`, `title`, `status`, `code`, `detail`, and what else is told of it. `status`: where it is
    another than the code's own."""
    told = {
        "type": f"/api/problems/{code}",
        "title": answers.title(code),
        "status": status or STATUS[code],
        "code": code,
        "detail": answers.detail(code, facts),
        **more,
    }
    return Response(json.dumps(told), status=told["status"], mimetype="application/problem+json")


def _not_understood(error: NotUnderstood) -> Response:
    told = [_complaint(each) for each in error.complaints[:MOST_TOLD]]
    more: dict[str, Any] = {"left_out": left_out} if (left_out := len(error.complaints) - len(told)) else {}
    return problem("not_understood", complaints=told, **more)


def _of_http(error: HTTPException) -> Response:
    """A status that has a code of its own is told by that, with the headers that go with it, such as Allow."""
    status = error.code or 500
    code = OF_HTTP.get(status, "fault" if status >= 500 else "bad_request")
    return _with(
        problem(code, {"most": _most()}, status=status), {n: v for n, v in error.get_headers() if n != "Content-Type"}
    )


def _most() -> str:
    return str(current_app.config["MAX_CONTENT_LENGTH"])


def _with(response: Response, headers: Mapping[str, str]) -> Response:
    response.headers.update(headers)
    return response


def _complaint(complaint: Complaint) -> dict[str, Any]:
    message, hint = complaints.sentence(complaint)
    return {
        "entry": complaint.entry,
        "field": complaint.field,
        "code": complaint.code,
        "facts": dict(complaint.facts),
        "message": message,
        "hint": hint,
    }
