"""What people did in an emergency at a leak is reviewed, over what was noted of its first hour."""

from __future__ import annotations

from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.records.beside.preferred import preferred_units
from repairlog.records.story import story_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import where_of
from repairlog.words import _
from repairlog.words.story import Telling, tell

routes = room("emergencies", __name__)

SHOWN = ("moment_noted", "told", "watch_handed", "decided", "emergency_reviewed")
"""Kinds of entries that tell what people did, and what was said of it so far."""


@routes.route("/leaks/<uuid:leak>/emergency-review", methods=["GET", "POST"])
def page(leak: UUID) -> ResponseReturnValue:
    """Review what people did in the emergency at that leak."""
    where = where_of(leak)
    review = Part(
        name="review",
        kind="emergency_reviewed",
        said={"leak": str(leak)},
        choices={"did.person": where.people},
        labels={"happened": _("When it was reviewed")},
    )
    return on_leak(where, leak, template="supervisor/emergency.html", parts=[review], around={"tellings": _told(leak)})


def _told(leak: UUID) -> list[Telling]:
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
        liked = preferred_units(tx, asker().actor.person)
    return [each for each in tell(story, units=liked) if each.kind in SHOWN] if story else []
