"""A repair is accepted or returned, over what it says and what in it does not hold up."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from flask.typing import ResponseReturnValue

from repairlog.entries.entry import Standing
from repairlog.records.beside.preferred import preferred_units
from repairlog.records.story import story_of
from repairlog.trade.area import Area
from repairlog.trade.gaps.own_work import who_did
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import area_of, attempt_in, where_of
from repairlog.words import _
from repairlog.words.gaps import own_work_here
from repairlog.words.story import Telling, tell

routes = room("reviews", __name__)


@routes.route("/leaks/<uuid:leak>/attempts/<uuid:attempt>/review", methods=["GET", "POST"])
def page(leak: UUID, attempt: UUID) -> ResponseReturnValue:
    """Accept that attempt, or return it."""
    where = where_of(leak)
    attempt_in(where, attempt)
    story, tellings = _story_of(leak, attempt)
    review = Part(
        name="review",
        kind="repair_reviewed",
        said={"leak": str(leak), "attempt": str(attempt)},
        choices={"did.person": where.people},
        labels={"happened": _("When you decided")},
    )
    return on_leak(
        where,
        leak,
        template="supervisor/review.html",
        parts=[review],
        around={"tellings": tellings, **_own_work(story, attempt, area_of(where))},
    )


def _story_of(leak: UUID, attempt: UUID) -> tuple[list[Standing], list[Telling]]:
    """The attempt, its tests and what was said of it before, and the same told as on the leak's sheet."""
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
        liked = preferred_units(tx, asker().actor.person)
    if story is None:
        return [], []
    about = [t.entry for t in story.told if t.entry.id == attempt or t.entry.text("attempt") == str(attempt)]
    ids = {each.id for each in about}
    return about, [each for each in tell(story, units=liked) if each.id in ids]


def _own_work(about: list[Standing], attempt: UUID, area: Area | None) -> dict[str, str]:
    """What is told to whoever worked on it themselves, and where it is said once for the area."""
    mine = any(each.id == attempt and str(asker().actor.person) in who_did(each) for each in about)
    if area is None or not mine:
        return {}
    told = own_work_here(accepts=area.own_acceptance)
    if area.own_acceptance is not None or not asker().may("own_acceptance_said", area=area.id):
        return {"own": told}
    leak = about[0].text("leak")
    return {"own": told, "say_once": url_for("area_says.own_acceptance", area=area.id, leak=leak, attempt=attempt)}
