"""Signing in and out."""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import Blueprint, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue
from flask_wtf import FlaskForm
from wtforms import PasswordField, StringField
from wtforms.validators import DataRequired, Length

from repairlog.clock import now
from repairlog.records.beside.passwords import fits
from repairlog.records.beside.sessions import begin_session, end_session
from repairlog.records.beside.sign_ins import sign_in_named
from repairlog.web.frame.asking import HELD, store
from repairlog.words import _

routes = Blueprint("sign_in", __name__, template_folder="templates")


class SignInForm(FlaskForm):  # type: ignore[misc]
    """A name and a password."""

    name = StringField(_("Name"), [DataRequired(), Length(max=200)])
    password = PasswordField(_("Password"), [DataRequired(), Length(max=1000)])


@routes.route("/sign-in", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """Ask for name and password; those who come in go to the page they wanted."""
    form = SignInForm()
    wrong = ""
    if form.validate_on_submit():
        found = sign_in_named(store(), form.name.data or "")
        if fits(form.password.data or "", found.password_hash if found else None) and found and not found.closed:
            session.clear()  # nothing that was there before signing in is carried over
            session[HELD] = begin_session(store(), person=found.person, at=now())
            return redirect(_within(request.args.get("then", "")))
        wrong = _("Name and password do not fit together.")
    return render_template("frame/sign_in.html", form=form, wrong=wrong)


@routes.post("/sign-out")
def out() -> ResponseReturnValue:
    """Sign out, and go back to signing in."""
    if held := session.pop(HELD, None):
        end_session(store(), held)
    session.clear()
    return redirect(url_for("sign_in.page"))


def _within(address: str) -> str:
    """The address, where it is one of ours; else the first page."""
    parts = urlsplit(address)
    ours = not parts.scheme and not parts.netloc and address.startswith("/") and not address.startswith(("//", "/\\"))
    return address if ours else url_for("leaks.page")
