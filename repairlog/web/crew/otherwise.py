"""What a source of a leak turns out to be, once it is known to be otherwise than it was told first."""

from __future__ import annotations

from collections.abc import Mapping
from uuid import UUID

from flask import abort, request
from flask.typing import ResponseReturnValue
from wtforms import Form

from repairlog.entries.ids import as_id
from repairlog.intake import Complaint
from repairlog.intake.form import Choices
from repairlog.records.story import Story, story_of
from repairlog.trade.sources import FACTS
from repairlog.web.crew.sources import places_near
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.told import Told
from repairlog.web.frame.where import Where, where_of
from repairlog.words import _
from repairlog.words.story.sources import as_known, in_a_line

routes = room("otherwise", __name__)


@routes.route("/leaks/<uuid:leak>/sources/<uuid:source>/otherwise", methods=["GET", "POST"])
def page(leak: UUID, *, source: UUID) -> ResponseReturnValue:
    """Say what that source of the leak turned out to be: only what is otherwise than it was told."""
    where = where_of(leak)
    story = _story_with(where, source)
    places, digs = places_near(where), _digs(story)
    seen_in = request.args.get("dig", "")
    part = Part(
        name="source",
        kind="source_changed",
        said={"leak": str(leak), "source": str(source)},
        choices={"did.person": where.people, "place": places, "seen_in_dig": digs},
        without=[name for name, offered in (("place", places), ("seen_in_dig", digs)) if not offered],
        begins={"seen_in_dig": seen_in, "how_known": "seen_in_the_dig"} if seen_in in dict(digs) else {},
        labels={"happened": _("Since when this is known")},
    )
    return on_leak(
        where,
        leak,
        template="crew/otherwise.html",
        parts=[part],
        around={"stands": in_a_line(story, source) if story else ""},
        means=_means,
        ready=lambda forms, told: _say_what_stands(forms, told, story, source=source),
    )


def _story_with(where: Where, source: UUID) -> Story | None:
    """The story of the leak; 404 where that is none of its sources, None where the asker may not see the leak."""
    if where.leak is None:
        return None
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=where.leak.id)
    if story is None or source not in {each.id for each in story.leak.sources}:
        abort(404)
    return story


def _digs(story: Story | None) -> Choices:
    """The digs that serve the leak, by their number there."""
    digs = enumerate(story.digs if story else (), start=1)
    return [(str(each.opened.id), _("Dig {number}").format(number=number)) for number, each in digs]


def _means(call: Call) -> tuple[Call, list[Complaint]]:
    """The call; what says of nothing that it is otherwise has to say something."""
    raw: Mapping[str, object] = call.get("source", {})
    if as_id(raw.get("source")) is None or any(raw.get(name) for name in FACTS):
        return call, []
    return call, [Complaint(entry=0, field="part", code="nothing_otherwise", facts={})]


def _say_what_stands(forms: Mapping[str, Form], told: Told, story: Story | None, *, source: UUID) -> None:
    """Under each box what is known of it until now, unless what was typed is read back there."""
    for name, said in (as_known(story, source) if story else {}).items():
        if name in forms["source"]:
            told.heard.setdefault(forms["source"][name].id, _("until now: {said}").format(said=said))
