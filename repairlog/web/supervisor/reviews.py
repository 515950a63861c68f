"""A repair is accepted or returned, over what it says and what in it does not hold up."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.records.beside.preferred import preferred_units
from repairlog.records.story import story_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import attempt_in, where_of
from repairlog.words import _
from repairlog.words.story import Telling, tell

routes = room("reviews", __name__)


@routes.route("/leaks/<uuid:leak>/attempts/<uuid:attempt>/review", methods=["GET", "POST"])
def page(leak: UUID, attempt: UUID) -> ResponseReturnValue:
    """Accept that attempt, or return it."""
    where = where_of(leak)
    attempt_in(where, attempt)
    review = Part(
        name="review",
        kind="repair_reviewed",
        said={"leak": str(leak), "attempt": str(attempt)},
        choices={"did.person": where.people},
        labels={"happened": _("When you decided")},
    )
    return on_leak(
        where, leak, template="supervisor/review.html", parts=[review], around={"tellings": told_of(leak, attempt)}
    )


def told_of(leak: UUID, attempt: UUID) -> Sequence[Telling]:
    """The attempt, its tests and what was said of it before, told as on the leak's sheet."""
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
        liked = preferred_units(tx, asker().actor.person)
    if story is None:
        return ()
    about = {t.entry.id for t in story.told if t.entry.id == attempt or t.entry.text("attempt") == str(attempt)}
    return [each for each in tell(story, units=liked) if each.id in about]
