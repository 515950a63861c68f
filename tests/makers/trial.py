"""A page of one form for tests of what stands around every page: it takes what is posted, or raises what it is told."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import unescape
from typing import Any

from flask import Flask, request
from flask.testing import FlaskClient

from repairlog.web.frame.asking import room
from tests.makers import book as m
from tests.makers.site import Site, site

HIDDEN = re.compile(r'<input type="hidden" name="([^"]*)" value="([^"]*)">')
FORM = re.compile(r'<form method="post" action="([^"]*)">(.*?)</form>', re.S)


@dataclass
class Trial:
    """`took`: the fields of each form that got through. `raises`: what the page raises instead of taking it."""

    site: Site
    took: list[list[tuple[str, str]]] = field(default_factory=list)
    raises: list[Exception] = field(default_factory=list)


def trial_on(book: m.Book) -> Trial:
    """The application on that book, with the page at /trial beside all others."""
    trial = Trial(site(book, with_page=_with_page))
    trial.site.app.extensions["trial"] = trial
    return trial


def _with_page(app: Flask) -> None:
    routes = room("trial", __name__)

    @routes.route("/trial", methods=["GET", "POST"])
    def page() -> str:
        trial: Trial = app.extensions["trial"]
        if trial.raises:
            raise trial.raises[0]
        trial.took.append([pair for pair in request.form.items(multi=True) if pair[0] != "csrf_token"])
        return "taken"

    app.register_blueprint(routes)


def forms_of(page: str) -> dict[str, list[tuple[str, str]]]:
    """The hidden fields of each form of a page, by the address that it is sent to; those around every page left out."""
    found = {unescape(action): HIDDEN.findall(inner) for action, inner in FORM.findall(page)}
    return {action: [(unescape(name), unescape(value)) for name, value in fields] for action, fields in found.items()}


def token_of(client: FlaskClient) -> str:
    """The token that this browser's forms carry."""
    return dict(forms_of(client.get("/sign-in").text)["/sign-in"])["csrf_token"]


def sign_in(client: FlaskClient, name: str, password: str, **fields: Any) -> Any:
    """Sign in as a browser does, with whatever else its form carries."""
    given = {"csrf_token": token_of(client), "name": name, "password": password}
    return client.post("/sign-in", data=given | fields)
