"""The first page: where a person begins, and where whoever is lost is sent."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, g, redirect, url_for
from flask.typing import ResponseReturnValue

from repairlog.web.frame.pages import nav_of

routes = Blueprint("first", __name__)


def first_page() -> str:
    """The address of the page that a person begins with."""
    return url_for("today.page")


@routes.get("/")
def page() -> ResponseReturnValue:
    """Go there; whoever is not signed in is asked to on the way."""
    return redirect(first_page())


@routes.app_context_processor
def nav() -> dict[str, Any]:
    """The shell's links for whoever is signed in; it asks the book nothing, for the page of a fault has them, too."""
    if (who := g.get("asker")) is None:
        return {}
    return {"nav": nav_of(who, unfinished=g.get("unfinished", 0))}
