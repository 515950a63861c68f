"""What ties a leak to something else: a number that others know it by, and a link to another leak."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from flask.typing import ResponseReturnValue

from repairlog.entries.ids import as_id
from repairlog.intake import Complaint
from repairlog.records.queries.leaks import leak_with_id
from repairlog.web.frame.asking import asker, room, store
from repairlog.web.frame.entering import Call, Part
from repairlog.web.frame.plain import on_leak
from repairlog.web.frame.where import leak_numbered, where_of
from repairlog.words import _

routes = room("ties", __name__)


@routes.route("/leaks/<uuid:leak>/number", methods=["GET", "POST"])
def number(leak: UUID) -> ResponseReturnValue:
    """Add a number that others know that leak by."""
    where = where_of(leak)
    part = Part(
        name="number",
        kind="outside_number_added",
        said={"subject": str(leak)},
        choices={"did.person": where.people},
        labels={"happened": _("Since when it bears it")},
    )
    return on_leak(where, leak, template="crew/number.html", parts=[part])


@routes.route("/leaks/<uuid:leak>/link", methods=["GET", "POST"])
def link(leak: UUID) -> ResponseReturnValue:
    """Link that leak to another one."""
    where = where_of(leak)
    part = Part(
        name="link",
        kind="linked",
        said={"subject": str(leak)},
        choices={"did.person": where.people, "to_subject": []},
        labels={"happened": _("When this was found out"), "to_subject": _("Number of the other leak")},
    )
    return on_leak(
        where, leak, template="crew/link.html", parts=[part], means=lambda call: _means(call, leak), shows=_shows
    )


def _means(call: Call, leak: UUID) -> tuple[Call, list[Complaint]]:
    """The call with the number of the other leak looked up."""
    raw: Mapping[str, Any] = call.get("link", {})
    typed = str(raw.get("to_subject", "")).strip()
    if not typed or as_id(typed):
        return call, []
    found = leak_numbered(typed)
    if found is None:
        return call, [Complaint(entry=0, field="to_subject", code="leak_number_unknown", facts={"got": typed})]
    if found == leak:
        return call, [Complaint(entry=0, field="to_subject", code="linked_to_itself", facts={"got": typed})]
    return {**call, "link": {**raw, "to_subject": str(found)}}, []


def _shows(call: Call) -> Call:
    """The call as its boxes show it: the other leak by its number."""
    raw: Mapping[str, Any] = call.get("link", {})
    other = as_id(raw.get("to_subject"))
    if other is None:
        return call
    with store().reading() as tx:
        found = leak_with_id(asker().scope, tx, leak=other)
    return {**call, "link": {**raw, "to_subject": found.number}} if found else call
