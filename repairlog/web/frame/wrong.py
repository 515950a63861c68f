"""The one error page: what went wrong, what it means, what to do."""

from __future__ import annotations

from flask import render_template
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException, InternalServerError

from repairlog.words import _, refusals

_STATUS = {"refused": 403, "conflict": 409, "not_understood": 422, "waits": 202, "busy": 503}


def answer(error: Exception) -> ResponseReturnValue | None:
    """The page for an exception; None for a fault of our own."""
    if isinstance(error, HTTPException):
        status = error.code or 500
        return _page(status, *_of_http(status))
    code = getattr(error, "code", None)
    if not isinstance(code, str) or code not in _STATUS:
        return None
    return _page(_STATUS[code], *refusals.sentence(code))


def fault() -> ResponseReturnValue:
    """The page for a fault of our own."""
    return _page(InternalServerError.code, *_of_http(InternalServerError.code))


def _page(status: int, message: str, hint: str) -> ResponseReturnValue:
    return render_template("frame/wrong.html", message=message, hint=hint), status


def _of_http(status: int) -> tuple[str, str]:
    known = {
        404: (_("There is no such page."), _("Look at the address, or begin with the list of leaks.")),
        405: (_("This page does not take that."), _("Go back, and use the page's own buttons.")),
        413: (_("That is more than one request may bring."), _("Send it in parts.")),
    }
    ours = (_("Something went wrong on our side."), _("Nothing was saved of it. Go back and try again in a moment."))
    theirs = (_("That could not be read."), _("Go back, and use the page's own buttons."))
    return known.get(status, ours if status >= 500 else theirs)
