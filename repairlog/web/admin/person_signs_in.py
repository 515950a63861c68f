"""A sign-in for a person on the books: a name, and a password that is shown once."""

from __future__ import annotations

import secrets
from uuid import UUID

from flask import abort, make_response, render_template, request
from flask.typing import ResponseReturnValue

from repairlog.records.beside.passwords import PasswordUnfit, demand_fit
from repairlog.records.beside.sign_ins import NameTaken, can_be_a_name, make_sign_in, sign_ins_of
from repairlog.records.queries.people import PersonRow, people_with
from repairlog.web.frame.asking import asker, room, store
from repairlog.words import _, troubles

routes = room("person_signs_in", __name__)

SIGNS = "abcdefghjkmnpqrstuvwxyz23456789"
"""Of a password that somebody reads off one screen and types into another: none that looks like another one."""

GROUPS = 4
A_GROUP = 4

LONGEST = 200
"""Characters of a name to sign in with, at the most."""


@routes.route("/people/<uuid:person>/sign-in", methods=["GET", "POST"])
def page(person: UUID) -> ResponseReturnValue:
    """Make a sign-in for that person; the answer shows the password, and nothing shows it again."""
    if not asker().may("lets_in", area=None):
        abort(403)
    with store().reading() as tx:
        found = people_with(asker().scope, tx, ids=[person])
        has = sign_ins_of(tx, [person]).get(person)
    if not found:
        abort(404)
    whose = found[0]
    if request.method == "GET":
        return _drawn(whose, name=whose.name, has=has.name if has and not has.closed_at else "")
    return _made(whose)


def _made(whose: PersonRow) -> ResponseReturnValue:
    name = " ".join(request.form.get("name", "").split())
    if not can_be_a_name(name) or len(name) > LONGEST:
        told = _("A name to sign in with has 1 to 200 characters that can be seen.")
        return _drawn(whose, name=name, told=told, status=422)
    typed = request.form.get("new", "")
    password = typed or new_password()
    try:
        demand_fit(password)
        make_sign_in(store(), person=whose.id, name=name, password=password, at=asker().at)
    except (PasswordUnfit, NameTaken) as unfit:
        return _drawn(whose, name=name, told=" ".join(troubles.sentence(unfit.code, unfit.facts)), status=422)
    return _drawn(whose, name=name, made=True, password="" if typed else password)


def new_password() -> str:
    """Some eighty bits of chance in groups of four: `k7fq-29xm-tb3h-wz8p`."""
    return "-".join("".join(secrets.choice(SIGNS) for _sign in range(A_GROUP)) for _group in range(GROUPS))


def _drawn(whose: PersonRow, *, name: str, status: int = 200, **more: object) -> ResponseReturnValue:
    answer = make_response(render_template("admin/person_signs_in.html", whose=whose, name=name, **more), status)
    answer.headers["Cache-Control"] = "no-store"  # a password may stand on it
    return answer
