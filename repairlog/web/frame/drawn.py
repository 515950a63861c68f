"""What pages are drawn with: stylesheet, typeface, script. Served by us; nothing comes from elsewhere."""

from __future__ import annotations

from pathlib import Path

from flask import Blueprint, send_from_directory
from flask.typing import ResponseReturnValue

FOLDER = Path(__file__).parent / "static"
KEPT_FOR = 24 * 3600

routes = Blueprint("drawn", __name__)


@routes.get("/drawn/<name>")
def file(name: str) -> ResponseReturnValue:
    """One file; a browser may keep it for a day."""
    return send_from_directory(FOLDER, name, max_age=KEPT_FOR)
