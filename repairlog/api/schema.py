"""How entries are written, for programs: open to whoever asks, for it tells nothing of what is in the book."""

from __future__ import annotations

import json
from functools import cache

from flask import Blueprint, Response
from flask.typing import ResponseReturnValue

from repairlog.intake.schema import ADDRESS, schema

routes = Blueprint("schema", __name__)


@routes.get(ADDRESS)
def told() -> ResponseReturnValue:
    """The JSON Schema of every kind of entry, each with examples that can be posted on the demo as they stand."""
    return Response(_written(), mimetype="application/schema+json")


@cache
def _written() -> str:
    return json.dumps(schema())
