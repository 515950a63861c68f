"""Where something is not seen any more because it was moved to another area: that is told in place of a bare 404."""

from __future__ import annotations

from typing import NoReturn
from uuid import UUID

from flask import abort, make_response, render_template, url_for

from repairlog.records.queries.moved_away import MovedAway, last_moved_away
from repairlog.records.store import Tx
from repairlog.web.frame.asking import asker
from repairlog.words import moved as words


def not_here(tx: Tx, id: UUID) -> NoReturn:
    """Answer 404; whoever sees the area that it was moved out of is told to which it went."""
    found = last_moved_away(asker().scope, tx, id=id)
    if found is None or found.seen:
        abort(404)
    page = render_template("frame/moved_away.html", told=sentence(found), since=words.since_then(), reason=found.reason)
    abort(make_response(page, 404))


def sentence(of: MovedAway) -> str:
    """Where it went, in a sentence."""
    return words.went(of.kind, of.called, to=of.to_area, on=of.on)


def way_to_move(kind: str, subject: UUID, *, area: UUID | None, leak: UUID | None = None) -> list[tuple[str, str]]:
    """The name and the address of the page by which it is moved, where the asker may. `leak`: of a dig, the one on
    whose sheet it is told."""
    may = asker().may("subject_moved", area=area, subject=kind)
    return [(words.way(), url_for("moves.move", subject=subject, leak=leak))] if may else []
