"""Cure by a log that is too long for an address, such as a year of temperatures: the file is sent, worked out and named
by its digest, so that a print of the page and the file can be told to belong together."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

from flask import render_template, request
from flask.typing import ResponseReturnValue

from repairlog.figures import told
from repairlog.figures.answered import answered
from repairlog.figures.cure import CURE
from repairlog.figures.declared import Answer
from repairlog.trade.unworkable import Unworkable
from repairlog.web.everyone.figures import Typed, box_of, leak_of, shown_on_page, typed_in_address
from repairlog.web.frame.asking import room

routes = room("cure_of_file", __name__)

BOX = "file"
LOG = next(it for it in CURE.inputs if it.kind == "file")
BESIDE = tuple(it for it in CURE.inputs if it.group == LOG.group and it is not LOG)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """A file as it came. `digest`: SHA-256 of its bytes."""

    name: str
    text: str
    digest: str


@routes.route("/figures/cure/file", methods=["GET", "POST"])
def page() -> ResponseReturnValue:
    """The figure of the log that was sent. `leak`: on whose sheet the asker was."""
    names = {it.name for it in BESIDE}
    typed = {name: it for name, it in typed_in_address(CURE, request.values).items() if name in names}
    sent = _sent() if request.method == "POST" else None
    answer, complaints = _worked_out(typed, sent)
    wrongs = {it["field"]: it for it in reversed(told.refusals(complaints))}
    shown = render_template(
        "everyone/cure_of_file.html",
        figure=CURE,
        of_file=box_of(LOG, typed={}, wrongs=wrongs),
        boxes=[box_of(it, typed=typed, wrongs=wrongs) for it in BESIDE],
        wrongs=[{**it, "label": told.label_of(CURE, it["field"])} for it in wrongs.values()],
        answer=shown_on_page(CURE, answer) if answer else None,
        sent=sent,
        caution=told.caution(),
        leak=leak_of(request.values.get("leak", "")),
    )
    return shown, 422 if wrongs else 200


def _sent() -> Sent | None:
    """The file of this form; None where none came, or an empty one."""
    came = request.files.get(BOX)
    content = came.stream.read() if came is not None else b""
    if came is None or not content:
        return None
    name = " ".join((came.filename or "").replace("\\", "/").rpartition("/")[2].split())[:200]
    return Sent(name=name, text=content.decode("utf-8-sig", errors="replace"), digest=sha256(content).hexdigest())


def _worked_out(typed: Typed, sent: Sent | None) -> tuple[Answer | None, tuple[Unworkable, ...]]:
    if request.method == "GET":
        return None, ()
    if sent is None:
        return None, (Unworkable("no_file", field=LOG.name),)
    return answered(CURE, {**typed, LOG.name: sent.text})
