"""A picture or another file is attached to a leak, or to anything of the books. It is kept as it came; what a browser
is shown is drawn anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from typing import Any
from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.intake import Complaint
from repairlog.intake.form import Choices
from repairlog.records.post import Receipt
from repairlog.trade.area import Area
from repairlog.web.frame.asking import room
from repairlog.web.frame.books import book_of, may_say, page_of, then
from repairlog.web.frame.entering import Call, Page, Part, entering
from repairlog.web.frame.files import Came, TooLarge, came, files
from repairlog.web.frame.where import sheet_of, where_of
from repairlog.words import _

routes = room("attachments", __name__)

CARRIED = ("digest", "length", "media_type", "name", "taken")
"""Fields that the file itself says: the page carries them unseen."""


@routes.route("/leaks/<uuid:leak>/attach", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Attach a file to that leak."""
    where = where_of(leak)
    return _attaching(
        leak,
        people=where.people,
        areas=where.areas,
        then=lambda receipts: sheet_of(leak, saved=receipts[0]),
        around={"leak": where.leak},
    )


@routes.route("/books/<uuid:subject>/attach", methods=["GET", "POST"])
def to_books(subject: UUID) -> ResponseReturnValue:
    """Attach a file to that thing of the books."""
    book = book_of(subject)
    back = page_of(book.kind, subject)
    return _attaching(
        subject,
        people=book.people,
        areas=book.areas,
        then=lambda receipts: then(back, saved=str(receipts[0].id)),
        around={"called": book.called, "back": back},
        open_to_asker=may_say("attached", book),
    )


def _attaching(
    to: UUID,
    *,
    people: Choices,
    areas: Sequence[Area],
    then: Callable[[Sequence[Receipt]], str],
    around: Mapping[str, Any],
    open_to_asker: bool | None = None,
) -> ResponseReturnValue:
    file = _came() if request.method == "POST" else None
    part = Part(
        name="file",
        kind="attached",
        said={"subject": str(to)},
        without=("original",),
        choices={"did.person": people},
        labels={"digest": _("Picture or file"), "happened": _("When it was taken or made")},
    )
    return entering(
        Page(
            template="crew/attach.html",
            parts=[part],
            areas=areas,
            then=then,
            open_to_asker=open_to_asker,
            means=lambda call: _means(call, file),
            ready=lambda forms, _told: _ready(forms, file if isinstance(file, Came) else None),
            around={**around, "carried": CARRIED, "most": files().most // 1_000_000},
        )
    )


def _came() -> Came | TooLarge | None:
    """The file that came, or what is the matter with it; None where none came."""
    try:
        return came()
    except TooLarge as too_large:
        return too_large


def _said(file: Came | None) -> dict[str, str]:
    return {name: str(value) for name, value in asdict(file).items() if value} if file else {}


def _means(call: Call, file: Came | TooLarge | None) -> tuple[Call, list[Complaint]]:
    """The call with what the file says of itself; a question for the file where none came, or one too large."""
    if "file" not in call:
        return call, []
    if isinstance(file, TooLarge):
        megabytes = f"{file.most / 1_000_000:g}"
        wrong = Complaint(entry=0, field="digest", code="file_too_large", facts={"most": megabytes})
        return {**call, "file": {**call["file"], "length": "0", "media_type": "unknown"}}, [wrong]
    raw: Mapping[str, Any] = {**call["file"], **_said(file)}
    if raw.get("digest"):
        return {**call, "file": raw}, []
    asks = [Complaint(entry=0, field="digest", code="file_first", facts={})]
    return {**call, "file": {**raw, "length": "0", "media_type": "unknown"}}, asks


def _ready(forms: Mapping[str, Form], file: Came | None) -> None:
    """The page carries what came, so that it need not be chosen again."""
    for name, value in _said(file).items():
        forms["file"][name].data = value
