"""Whether all is well, for whoever started us and for probes: no sign-in, no more than that."""

from __future__ import annotations

from flask import Blueprint, Response
from flask.typing import ResponseReturnValue

from repairlog.records.store.readable import is_readable
from repairlog.web.frame.asking import store

routes = Blueprint("healthy", __name__)


@routes.get("/healthy")
def page() -> ResponseReturnValue:
    """200 where the book can be read now, else 503."""
    if is_readable(store()):
        return Response("ok\n", mimetype="text/plain")
    return Response("the book cannot be read\n", status=503, mimetype="text/plain")
