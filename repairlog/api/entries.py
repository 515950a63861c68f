"""Entries in JSON, through the one door: posted by programs, in a person's name."""

from __future__ import annotations

import json
from typing import Any

from flask import Blueprint, Response, request
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import UnsupportedMediaType

from repairlog.api.sender import sender, store
from repairlog.clock import now
from repairlog.intake import record
from repairlog.intake.body import read_call
from repairlog.records.post import Receipt

routes = Blueprint("entries", __name__)


@routes.post("/api/entries")
def post() -> ResponseReturnValue:
    """Record one or many entries, all or none: 201 with a receipt each, 200 where every one was in the book already.

    Whatever else comes back is problem details and no receipt: 202 `waits` says that the call is kept, and recorded by
    itself when what it names comes in; with any other, nothing was recorded.
    """
    actor = sender()
    _demand_json()
    call = read_call(request.get_data(cache=False))
    receipts = record(store(), call.entries, actor=actor, moments=call.moments(now()))
    status = 201 if any(receipt.new for receipt in receipts) else 200
    told = {"receipts": [_told(receipt) for receipt in receipts]}
    return Response(json.dumps(told), status=status, mimetype="application/json")


def _demand_json() -> None:
    charset = request.mimetype_params.get("charset", "utf-8").lower()
    encoding = request.headers.get("Content-Encoding", "identity").lower()
    if (request.mimetype, charset, encoding) != ("application/json", "utf-8", "identity"):
        raise UnsupportedMediaType


def _told(receipt: Receipt) -> dict[str, Any]:
    return {
        "id": str(receipt.id),
        "index": receipt.index,
        "leaf": receipt.leaf,
        "number": receipt.number,
        "raised": list(receipt.raised),
    }
