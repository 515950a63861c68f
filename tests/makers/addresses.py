"""Every page of the site, with addresses at which a test can look at it on the full book."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Flask

from repairlog import web

NO_PAGES = {"drawn.file", "first.page", "healthy.page"}
"""Answers to GET that nobody reads: a file, the way to another page, a word for probes."""

ROLES = {"frame": None, "everyone": "officer", "crew": "crew", "supervisor": "supervisor"}
"""Who looks at the pages of a room; the frame's are for nobody yet."""

ADDRESSES = {
    "leaks.page": ("/leaks", "/leaks?street=no+such+street"),
    "sign_in.page": ("/sign-in",),
}
"""By endpoint. In braces stand names of the full book's entries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """`room`: which package of `web` draws it. `takes`: whether a form can be sent to it."""

    endpoint: str
    room: str
    takes: bool

    @property
    def role(self) -> str | None:
        """Who looks at it."""
        return ROLES[self.room]


def pages() -> dict[str, Page]:
    """Every page that the site's own map of addresses has, by endpoint."""
    app = Flask("the map alone", static_folder=None)
    for routes in web.ROUTES:
        app.register_blueprint(routes)
    shown = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())} - NO_PAGES
    sent = {rule.endpoint for rule in app.url_map.iter_rules() if "POST" in (rule.methods or ())}
    rooms = {endpoint: app.view_functions[endpoint].__module__.split(".")[2] for endpoint in shown}
    return {name: Page(endpoint=name, room=rooms[name], takes=name in sent) for name in sorted(shown)}
