"""Signing in and out."""

from __future__ import annotations

from datetime import datetime, timedelta

from flask import Blueprint, current_app, g, make_response, redirect, request, session, url_for
from flask.typing import ResponseReturnValue

from repairlog.clock import now
from repairlog.records.beside.failed_sign_ins import Trying, count_failure, forget_failures, wait_of
from repairlog.records.beside.passwords import LONGEST, fits
from repairlog.records.beside.sessions import begin_session, end_session
from repairlog.records.beside.sign_ins import SignIn, sign_in_named
from repairlog.web.frame.ask_in import ask_in
from repairlog.web.frame.asking import HELD, asker, asker_or_none, store
from repairlog.web.frame.device import device_of
from repairlog.web.frame.first import first_page
from repairlog.web.frame.known_browser import mark_for, remember
from repairlog.web.frame.ours import is_ours
from repairlog.web.frame.typed import Typed, offer_again, typed_now
from repairlog.words import _, waiting

LONGEST_NAME = 200

routes = Blueprint("sign_in", __name__, template_folder="templates")


@routes.get("/sign-in")
def page() -> ResponseReturnValue:
    """Ask for name and password."""
    return ask_in(then=_then())


@routes.post("/sign-in")
def come_in() -> ResponseReturnValue:
    """Those who come in go to the page they wanted, or see what they typed before. 403 where name and password do not
    fit or the sign-in was closed, 429 where it failed so often that they are to wait: then nothing is looked at."""
    name, at = request.form.get("name", "")[:LONGEST_NAME], now()
    trying = Trying(name=name, address=request.remote_addr or "", browser=mark_for(name))
    if wait := wait_of(store(), trying, at=at):
        return _asked_to_wait(wait)
    found = _who_fits(name, request.form.get("password", ""))
    if found is None:
        count_failure(store(), trying, at=at)
        return asked_again(_("Name and password do not fit together."), status=403)
    if found.closed:  # told to nobody but who knows the password
        count_failure(store(), trying, at=at)
        return asked_again(_was_closed(), status=403)
    forget_failures(store(), trying)
    _begin(found, at=at)
    return remember(make_response(_onward(typed_now())), name)


@routes.post("/sign-out")
def out() -> ResponseReturnValue:
    """Sign out, and go back to signing in."""
    _end()
    return redirect(url_for("sign_in.page"))


def asked_again(told: str, *, status: int) -> ResponseReturnValue:
    """The page again, with the name as it was typed, and with what was typed before; never the password."""
    name = request.form.get("name", "")[:LONGEST_NAME]
    return ask_in(typed=typed_now(), then=_then(), name=name, told=told, status=status)


def _asked_to_wait(wait: timedelta) -> ResponseReturnValue:
    seconds = waiting.whole_seconds(wait)
    response = make_response(asked_again(waiting.sentence(seconds), status=429))
    response.headers["Retry-After"] = str(seconds)
    current_app.logger.warning("signing in was put off for %s seconds, asked from %s", seconds, request.remote_addr)
    return response


def _who_fits(name: str, password: str) -> SignIn | None:
    found = sign_in_named(store(), name)
    if len(password) > LONGEST:
        return None  # nobody's, and too long to be looked at
    fit = fits(password, found.password_hash if found else None)
    return found if fit else None


def _was_closed() -> str:
    return _(
        "This sign-in was closed, and nothing comes in by it any more. A supervisor of the area can enter what you "
        "wrote and say that you did it; an administrator can let you in again."
    )


def _begin(found: SignIn, *, at: datetime) -> None:
    _end()  # nothing that was there before signing in is carried over
    session[HELD] = begin_session(store(), person=found.person, at=at, device=device_of(request.user_agent.string))
    g.pop("asker", None)
    asker_or_none()


def _end() -> None:
    if held := session.get(HELD):
        end_session(store(), held)
    session.clear()
    g.pop("csrf_token", None)  # the one of this request is of the session that ended


def _onward(typed: Typed | None) -> ResponseReturnValue:
    if typed is None:
        return redirect(_then() or first_page())
    why = _("Typed before signing in as {name}. It is not saved yet; if you send it, it is entered in your name.")
    title = _("What was typed is still here")
    return offer_again(typed, title=title, why=why.format(name=asker().name), status=200)


def _then() -> str:
    """Where whoever signs in wanted to go, where that is one of ours; else empty."""
    then = request.args.get("then", "")
    return then if is_ours(then, method="GET") else ""
