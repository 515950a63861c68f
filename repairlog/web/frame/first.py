"""The first page: where a person begins, and where whoever is lost is sent."""

from __future__ import annotations

from flask import Blueprint, redirect, url_for
from flask.typing import ResponseReturnValue

routes = Blueprint("first", __name__)


def first_page() -> str:
    """The address of the page that a person begins with."""
    return url_for("today.page")


@routes.get("/")
def page() -> ResponseReturnValue:
    """Go there; whoever is not signed in is asked to on the way."""
    return redirect(first_page())
