"""A note on anything of the books, and a number that others know it by: a call, a lot, a place, a person, an area."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.web.frame.asking import room
from repairlog.web.frame.books import Step, book_of, enters_step, may_say, page_of
from repairlog.words import _

routes = room("on_books", __name__)


def steps() -> Mapping[str, Step]:
    """What may be said of anything there, by the last part of its address."""
    return {
        "note": Step(kind="note", heading=_("Add a note"), save=_("Save the note"), happened=_("When"), caution=True),
        "number": Step(
            kind="outside_number_added",
            heading=_("Add an outside number"),
            save=_("Save the number"),
            happened=_("Since when it bears it"),
            hint=_("It is found by it in its list."),
            caution=True,
        ),
    }


@routes.route("/books/<uuid:subject>/<any(note,number):said>", methods=["GET", "POST"])
def page(subject: UUID, *, said: str) -> ResponseReturnValue:
    """Say that of that thing."""
    of, book = steps()[said], book_of(subject)
    return enters_step(
        of,
        subject,
        at=page_of(book.kind, subject),
        called=book.called,
        opens_to=may_say(of.kind, book),
        areas=book.areas,
        choices={"did.person": book.people},
    )
