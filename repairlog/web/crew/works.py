"""Work on a leak as those who do it enter it: talked over, waiting and going on, done or given back."""

from __future__ import annotations

from uuid import UUID

from flask import abort, request
from flask.typing import ResponseReturnValue

from repairlog.records.queries.work import work_of
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.plain import plain
from repairlog.web.frame.where import where_of
from repairlog.words import _, work

routes = room("works", __name__)


@routes.route("/leaks/<uuid:leak>/waiting", methods=["GET", "POST"])
def waiting(leak: UUID) -> ResponseReturnValue:
    """Say what the work on that leak waits on."""
    return plain(
        where_of(leak),
        leak,
        kind="work_waiting",
        heading=_("The work waits"),
        save=_("Save what it waits on"),
        first=("until_on", "remarks"),
    )


@routes.route("/leaks/<uuid:leak>/goes-on", methods=["GET", "POST"])
def goes_on(leak: UUID) -> ResponseReturnValue:
    """Say that the work on that leak waits no longer."""
    return plain(
        where_of(leak),
        leak,
        kind="work_goes_on",
        heading=_("The work goes on"),
        save=_("Save that it goes on"),
        first=("remarks",),
    )


@routes.route("/leaks/<uuid:leak>/briefing", methods=["GET", "POST"])
def briefing(leak: UUID) -> ResponseReturnValue:
    """Enter that the work was talked over, with whom and about what."""
    where = where_of(leak)
    return plain(
        where,
        leak,
        kind="briefing_given",
        heading=_("Talk the work over"),
        save=_("Save the briefing"),
        choices={"present.person": where.people},
        first=("present",),
        labels={"happened": _("When it was talked over")},
    )


@routes.route("/leaks/<uuid:leak>/given/<uuid:given>", methods=["GET", "POST"])
def settle(leak: UUID, given: UUID) -> ResponseReturnValue:
    """Say that work which was given is done, or is taken back."""
    where = where_of(leak)
    with store().reading() as tx:
        found = next((row for row in work_of(asker().scope, tx, leak=leak) if row.id == given), None)
    if found is None and request.method == "GET" and "unfinished" not in request.args:
        abort(404)
    return plain(
        where,
        leak,
        kind="work_settled",
        heading=_("Work that was given"),
        save=_("Save it"),
        said={"given": str(given)},
        first=("reason",),
        told=[work.given(found)] if found else [],
    )
