"""The one error page: what went wrong, what it means, what to do; and what was typed, where it would be lost."""

from __future__ import annotations

from typing import Any

from flask import Response, make_response, render_template, request
from flask.typing import ResponseReturnValue
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException

from repairlog.access import NOTHING, Refused
from repairlog.entries.kinds import KINDS
from repairlog.intake import NotUnderstood, WaitsFor
from repairlog.records.post import Conflict
from repairlog.records.queries.people import people_with
from repairlog.records.store import Away, Busy, NotReady
from repairlog.trade.rulebook.kept import RulebookUnreadable
from repairlog.web.frame.ask_in import demand_sign_in
from repairlog.web.frame.asking import asker_or_none, store
from repairlog.web.frame.compared import compared, people_in
from repairlog.web.frame.first import first_page
from repairlog.web.frame.ours import is_from_elsewhere
from repairlog.web.frame.sign_in import asked_again
from repairlog.web.frame.typed import offer_again, typed_now
from repairlog.words import _, boxes, complaints, refusals, troubles

AGAIN_IN = "5"
"""Seconds after which a browser or a probe may ask again."""


def answer(error: Exception) -> ResponseReturnValue | None:
    """The page for an exception; None for a fault of our own."""
    match error:
        case CSRFError():
            return _too_old()
        case HTTPException():
            return _of_http(error)
        case Conflict():
            return _of_conflict(error)
        case Refused():
            return _page(403, *refusals.sentence(error.code, {"kind": error.kind}))
        case NotUnderstood():
            told = [complaints.sentence(each) for each in error.complaints]
            return _page(422, *refusals.sentence(error.code), told=told)
        case WaitsFor():
            return _page(202, *refusals.sentence(error.code))
        case Away() | Busy():
            return _later(*refusals.sentence(error.code), typed=typed_now())
        case NotReady():
            return _later(*troubles.sentence(error.code, error.facts))
        case RulebookUnreadable():
            return _later(*troubles.sentence(error.code, error.facts), typed=typed_now())
    return None


def fault() -> ResponseReturnValue:
    """The page for a fault of our own. It asks the book nothing: that may be what failed."""
    message = _("Something went wrong on our side.")
    hint = _("It is written down here for whoever runs the machine. Try again in a moment; tell them if it stays so.")
    return _drawn(500, message, hint, typed=typed_now())


def _too_old() -> ResponseReturnValue:
    """A form came without the token that fits: of a page from before signing in, or of another site."""
    if request.endpoint == "sign_in.come_in":
        return asked_again(_("This page had grown old. Type the password once more."), status=400)
    if asker_or_none() is None:
        return demand_sign_in()
    if typed := typed_now():
        title = _("What was typed is still here")
        why = _("The page had grown old, and nothing of it was saved. Send it again, and it is entered in your name.")
        return offer_again(typed, title=title, why=why, status=400)
    if is_from_elsewhere():
        return _page(
            400, _("A page of another site sent this."), _("Nothing was saved of it. Begin on a page of ours.")
        )
    return _page(400, _("This page had grown old."), _("Go back, load it anew, and try again."))


def _of_http(error: HTTPException) -> ResponseReturnValue:
    status = error.code or 500
    if status == 500:
        return fault()
    sent = request.method == "POST" and request.endpoint is not None
    words = _lost_from_sight() if sent and status == 404 else _http_words(status)
    typed = typed_now() if status in (403, 404) else None
    response = make_response(_page(status, *words, typed=typed if typed and typed.shown else None))
    for name, value in error.get_headers(request.environ):
        if name in ("Allow", "Retry-After"):
            response.headers[name] = value
    return response


def _lost_from_sight() -> tuple[str, str]:
    """Of a form whose subject the sender does not see, or does not see any more, wherever it was sent."""
    return (
        _("What this form is about is not there for you, or not any more."),
        _(
            "Nothing was saved of it. It may have been moved, made one with another or made void, or your part in its"
            " area has ended. Look it up again, or ask somebody who oversees the area."
        ),
    )


def _http_words(status: int) -> tuple[str, str]:
    known = {
        403: (_("This is not for you to see or do."), _("Ask somebody who oversees the area, or for the role.")),
        404: (_("There is no such page."), _("Look at the address, or begin with the first page.")),
        405: (_("This page does not take that."), _("Go back, and use the page's own buttons.")),
        413: (
            _("That is more than one request may bring."),
            _(
                "Nothing was saved of it. Go back: most browsers still hold what was typed there. Send a smaller file,"
                " or a long text in parts."
            ),
        ),
    }
    return known.get(status, (_("That could not be read."), _("Go back, and use the page's own buttons.")))


def _of_conflict(conflict: Conflict) -> ResponseReturnValue:
    asker = asker_or_none()
    with store().reading() as tx:
        people = people_with(asker.scope if asker else NOTHING, tx, ids=people_in(conflict))
    fields = compared(conflict, names={each.id: each.name for each in people})
    message, hint = refusals.sentence(conflict.code, {"id": str(conflict.id)})
    kind_says = boxes.label(KINDS[conflict.came["said"]["kind"]].says)
    return _page(409, message, hint, fields=fields, kind_says=kind_says, seen=bool(conflict.stands))


def _later(message: str, hint: str, **more: Any) -> Response:
    response = make_response(_drawn(503, message, hint, **more))
    response.headers["Retry-After"] = AGAIN_IN
    return response


def _page(status: int, message: str, hint: str, **more: Any) -> ResponseReturnValue:
    asker_or_none()  # whoever is signed in keeps the way to the other pages
    return _drawn(status, message, hint, **more)


def _drawn(status: int, message: str, hint: str, **more: Any) -> ResponseReturnValue:
    asked = request.full_path.rstrip("?")
    again = asked if request.method == "GET" and status >= 500 else ""
    page = render_template(
        "frame/wrong.html", message=message, hint=hint, asked=asked, again=again, first=first_page(), **more
    )
    return page, status
