"""Where a person is signed in: a lost phone's sign-ins are ended here, a password is made anew, a sign-in is closed."""

from __future__ import annotations

from uuid import UUID

from flask import abort, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.beside.passwords import PasswordUnfit, demand_fit
from repairlog.records.beside.sign_ins import SignInUnknown, change_password, close_sign_in, sign_ins_of
from repairlog.records.beside.ways_in import end_everything, end_program, end_window
from repairlog.records.queries.people import people_with
from repairlog.web.admin.person_signs_in import new_password
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.ways_in import told_ways_in
from repairlog.words import _, troubles

routes = room("sign_ins", __name__)


@routes.get("/people/<uuid:person>/sign-ins")
def page(person: UUID) -> ResponseReturnValue:
    """Everything by which that person comes in, each with a button that ends it."""
    return _drawn(person, done=request.args.get("done", ""))


@routes.post("/people/<uuid:person>/sign-ins/end")
def end(person: UUID) -> ResponseReturnValue:
    """End the one browser that the form names, or, where it names none, every browser and every token."""
    _demand(person)
    if mark := request.form.get("mark", ""):
        end_window(store(), person, mark=mark)
    else:
        end_everything(store(), person, at=asker().at)
    return redirect(url_for("sign_ins.page", person=person, done="one" if mark else "all"))


@routes.post("/people/<uuid:person>/sign-ins/programs")
def end_token(person: UUID) -> ResponseReturnValue:
    """No program sends any more by the token that the form names."""
    _demand(person)
    end_program(store(), person, mark=request.form.get("mark", ""), at=asker().at)
    return redirect(url_for("sign_ins.page", person=person, done="program"))


@routes.post("/people/<uuid:person>/sign-ins/password")
def password(person: UUID) -> ResponseReturnValue:
    """Another password, typed or made up; whoever is in by the old one is signed out. The answer shows what was made
    up, and nothing shows it again."""
    name = _demand(person)
    typed = request.form.get("new", "")
    made = typed or new_password()
    try:
        demand_fit(made)
        change_password(store(), name, password=made)
    except (PasswordUnfit, SignInUnknown) as unfit:
        return _drawn(person, told=" ".join(troubles.sentence(unfit.code, unfit.facts)), status=422)
    return _drawn(person, done="password", shown="" if typed else made)


@routes.post("/people/<uuid:person>/sign-ins/close")
def close(person: UUID) -> ResponseReturnValue:
    """Nobody comes in by that sign-in any more, no browser is left in, and no program sends in that name."""
    name = _demand(person)
    try:
        close_sign_in(store(), name, at=asker().at)
    except SignInUnknown as unknown:
        return _drawn(person, told=" ".join(troubles.sentence(unknown.code, unknown.facts)), status=422)
    end_everything(store(), person, at=asker().at)
    return redirect(url_for("sign_ins.page", person=person, done="closed"))


def _demand(person: UUID) -> str:
    """The name under which that person signs in, empty where they do not; 403 for who lets nobody in, 404 for who is
    nobody on the books."""
    if not asker().may("lets_in", area=None):
        abort(403)
    with store().reading() as tx:
        found = people_with(asker().scope, tx, ids=[person])
        has = sign_ins_of(tx, [person]).get(person)
    if not found:
        abort(404)
    return has.name if has and not has.closed_at else ""


def _drawn(person: UUID, *, done: str = "", told: str = "", shown: str = "", status: int = 200) -> ResponseReturnValue:
    name = _demand(person)
    with store().reading() as tx:
        whose = people_with(asker().scope, tx, ids=[person])[0]
        is_in = told_ways_in(tx, person)
    said = {
        "one": _("Signed out there."),
        "all": _("Signed out everywhere, and every program's token is closed."),
        "program": _("No program sends by that token any more."),
        "password": _("There is a new password, and whoever was in by the old one is signed out."),
        "closed": _("The sign-in is closed. What they entered stays under their name."),
    }
    answer = make_response(
        render_template(
            "admin/sign_ins.html",
            whose=whose,
            name=name,
            is_in=is_in,
            done=said.get(done, ""),
            told=told,
            shown=shown,
            itself=person == asker().actor.person,
        ),
        status,
    )
    answer.headers["Cache-Control"] = "no-store"  # a password may stand on it
    return answer
