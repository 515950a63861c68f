"""A picture or another file is attached to a leak. It is kept as it came; what a browser is shown is drawn anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any
from uuid import UUID

from flask import request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.intake import Complaint
from repairlog.web.frame.asking import room
from repairlog.web.frame.entering import Call, Page, Part, entering
from repairlog.web.frame.files import Came, came, files
from repairlog.web.frame.where import sheet_of, where_of
from repairlog.words import _

routes = room("attachments", __name__)

CARRIED = ("digest", "length", "media_type", "name", "taken")
"""Fields that the file itself says: the page carries them unseen."""


@routes.route("/leaks/<uuid:leak>/attach", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Attach a file to that leak."""
    where = where_of(leak)
    file = came() if request.method == "POST" else None
    part = Part(
        name="file",
        kind="attached",
        said={"subject": str(leak)},
        without=("original",),
        choices={"did.person": where.people},
        labels={"happened": _("When it was taken or made")},
    )
    return entering(
        Page(
            template="crew/attach.html",
            parts=[part],
            areas=where.areas,
            then=lambda receipts: sheet_of(leak, saved=receipts[0]),
            means=lambda call: _means(call, file),
            ready=lambda forms, _told: _ready(forms, file),
            around={"leak": where.leak, "carried": CARRIED, "most": files().most // 1_000_000},
        )
    )


def _said(file: Came | None) -> dict[str, str]:
    return {name: str(value) for name, value in asdict(file).items() if value} if file else {}


def _means(call: Call, file: Came | None) -> tuple[Call, list[Complaint]]:
    """The call with what the file says of itself; a question for the file where none came."""
    if "file" not in call:
        return call, []
    raw: Mapping[str, Any] = {**call["file"], **_said(file)}
    if raw.get("digest"):
        return {**call, "file": raw}, []
    asks = [Complaint(entry=0, field="digest", code="file_first", facts={})]
    return {**call, "file": {**raw, "length": "0", "media_type": "unknown"}}, asks


def _ready(forms: Mapping[str, Form], file: Came | None) -> None:
    """The page carries what came, so that it need not be chosen again."""
    for name, value in _said(file).items():
        forms["file"][name].data = value
