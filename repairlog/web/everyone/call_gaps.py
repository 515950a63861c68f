"""What does not hold up in the record of a call is set aside, with the reason why it needs nobody."""

from __future__ import annotations

from uuid import UUID

from flask import abort, request, url_for
from flask.typing import ResponseReturnValue

from repairlog.records.queries.calls import call_with_id
from repairlog.records.story import Story, story_of_call
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.books import Says, enters
from repairlog.web.frame.there import area_there, people_there
from repairlog.words import _, gaps
from repairlog.words.addresses import address_of_leak

routes = room("call_gaps", __name__)


@routes.route("/calls/<uuid:call>/entries/<uuid:entry>/gaps/<gap>", defaults={"row": ""}, methods=["GET", "POST"])
@routes.route("/calls/<uuid:call>/entries/<uuid:entry>/gaps/<gap>/<row>", methods=["GET", "POST"])
def set_aside(call: UUID, entry: UUID, *, gap: str, row: str) -> ResponseReturnValue:
    """Set that gap of the call aside; `row` is the row that it is about."""
    with store().reading() as tx:
        found = call_with_id(asker().scope, tx, call=call)
        story = story_of_call(asker().scope, tx, call=call) if found else None
        here = area_there(tx, found.area if found else None)
        people = people_there(tx, here)
    told = _told(story, entry, code=gap, row=row)
    if request.method == "GET" and "unfinished" not in request.args and not told:
        abort(404)
    return enters(
        Says(
            kind="gap_set_aside",
            heading=_("Set a gap aside"),
            save=_("Set it aside"),
            called=f"{found.number}, {address_of_leak(found)}" if found else "",
            back=url_for("call.page", call=call),
            then=url_for("call.page", call=call),
            opens_to=bool(found and asker().may("gap_set_aside", area=found.area)),
            areas=here,
            said={"subject": str(call), "about": str(entry), "gap": gap} | ({"row": row} if row else {}),
            choices={"did.person": people},
            told=told,
            hint=_("The gap still stands, marked as set aside with your reason."),
        )
    )


def _told(story: Story | None, entry: UUID, *, code: str, row: str) -> list[str]:
    """The gap in words; nothing where the story has none such."""
    stands = story.gaps if story else ()
    kinds = {each.entry.id: each.entry.kind for each in story.told} if story else {}
    found = [each for each in stands if (each.code, each.entry, each.row) == (code, entry, row)]
    return [gaps.told(each.code, each.facts, kind=kinds[each.entry]) for each in found]
