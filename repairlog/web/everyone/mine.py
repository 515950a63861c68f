"""What is the asker's own: the units they like to see, and their password."""

from __future__ import annotations

from flask import redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.beside.failed_sign_ins import Trying, count_failure, wait_of
from repairlog.records.beside.passwords import PasswordUnfit, demand_fit, fits
from repairlog.records.beside.preferred import CHOSEN_FOR, offered, prefer_units, preferred_units
from repairlog.records.beside.sessions import begin_session
from repairlog.records.beside.sign_ins import change_password, sign_in_named
from repairlog.records.beside.ways_in import end_program, end_window, end_windows
from repairlog.web.frame.asking import HELD, asker, room, store
from repairlog.web.frame.device import device_of
from repairlog.web.frame.known_browser import mark_for
from repairlog.web.frame.ways_in import told_ways_in
from repairlog.words import _, troubles, waiting
from repairlog.words.measures import quantity_word

routes = room("mine", __name__)


@routes.get("/mine")
def page() -> ResponseReturnValue:
    """Units and password."""
    return _drawn(done=request.args.get("done", ""))


@routes.post("/mine/units")
def units() -> ResponseReturnValue:
    """From now on these units; of a quantity for which none is chosen, any."""
    chosen = {each: request.form.get(each, "") for each in CHOSEN_FOR}
    prefer_units(
        store(),
        person=asker().actor.person,
        units={each: unit for each, unit in chosen.items() if unit in offered(each)},
    )
    return redirect(url_for("mine.page", done="units"))


@routes.post("/mine/password")
def password() -> ResponseReturnValue:
    """Another password, for whoever knows the one that holds; every other browser is signed out by it."""
    trying = Trying(name=asker().name, address=request.remote_addr or "", browser=mark_for(asker().name))
    if wait := wait_of(store(), trying, at=asker().at):
        return _drawn(told=waiting.sentence(waiting.whole_seconds(wait)), status=429)
    found = sign_in_named(store(), asker().name)
    if not fits(request.form.get("present", ""), found.password_hash if found else None):
        count_failure(store(), trying, at=asker().at)
        return _drawn(told=_("The present password is another one."), status=422)
    new = request.form.get("new", "")
    if new != request.form.get("again", ""):
        return _drawn(told=_("The two new passwords differ."), status=422)
    try:
        demand_fit(new)
    except PasswordUnfit as unfit:
        return _drawn(told=" ".join(troubles.sentence(unfit.code, unfit.facts)), status=422)
    change_password(store(), asker().name, password=new)
    device = device_of(request.user_agent.string)
    session[HELD] = begin_session(store(), person=asker().actor.person, at=asker().at, device=device)
    return redirect(url_for("mine.page", done="password"))


@routes.post("/mine/sign-ins")
def end() -> ResponseReturnValue:
    """Sign out in the browser that the form names, or, where it names none, in every other one."""
    person, mark = asker().actor.person, request.form.get("mark", "")
    if mark:
        end_window(store(), person, mark=mark)
    else:
        end_windows(store(), person, but=session[HELD])
    return redirect(url_for("mine.page", done="ended"))


@routes.post("/mine/programs")
def end_token() -> ResponseReturnValue:
    """No program sends any more by the token that the form names."""
    end_program(store(), asker().actor.person, mark=request.form.get("mark", ""), at=asker().at)
    return redirect(url_for("mine.page", done="program"))


def _drawn(*, done: str = "", told: str = "", status: int = 200) -> ResponseReturnValue:
    with store().reading() as tx:
        liked = preferred_units(tx, asker().actor.person)
        is_in = told_ways_in(tx, asker().actor.person)
    boxes = [(each, quantity_word(each), offered(each), liked.get(each, "")) for each in CHOSEN_FOR]
    said = {
        "units": _("Units saved."),
        "password": _("You have a new password. Every other browser is signed out."),
        "ended": _("Signed out there."),
        "program": _("No program sends by that token any more."),
    }
    own = url_for("person.page", person=asker().actor.person)
    page = render_template("everyone/mine.html", own=own, boxes=boxes, done=said.get(done, ""), told=told, is_in=is_in)
    return page, status
