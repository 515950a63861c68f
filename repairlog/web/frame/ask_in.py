"""The page that asks a person to sign in, with whatever must not be lost meanwhile."""

from __future__ import annotations

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from werkzeug.wrappers import Response

from repairlog.web.frame.typed import Typed, packed, typed_now


def demand_sign_in() -> ResponseReturnValue:
    """For whoever asks for a page and is not signed in: the way to sign in and back; what they typed comes along."""
    if typed := typed_now():
        return ask_in(typed=typed, status=403)
    if request.headers.get("HX-Request") == "true":  # a part of a page would be put into it: the whole goes instead
        return Response(status=204, headers={"HX-Redirect": url_for("sign_in.page")})
    then = request.full_path.rstrip("?") if request.method == "GET" else None
    return redirect(url_for("sign_in.page", then=then))


def ask_in(
    *, typed: Typed | None = None, then: str = "", name: str = "", told: str = "", status: int = 200
) -> ResponseReturnValue:
    """The page itself. `then`: where to go afterwards; `name`: as it was typed; `told`: why they are asked again."""
    carried = packed(typed) if typed else ""
    page = render_template("frame/sign_in.html", typed=typed, carried=carried, then=then, name=name, told=told)
    return page, status
