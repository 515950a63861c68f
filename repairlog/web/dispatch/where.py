"""The call that a page is about, its area, and who may be sent there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from uuid import UUID

from flask import abort, request

from repairlog.intake.form import Choices
from repairlog.records.queries.calls import CallRow, call_with_id
from repairlog.records.queries.crews import crews_of
from repairlog.records.queries.people import people_of
from repairlog.records.queries.settings import areas
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, store


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCall:
    """`call`: None where the asker may not see it, or there is none: what they send all the same is kept by the door.
    `areas`: the call's own, if any. `people`, `crews`: who may be sent, to choose from."""

    call: CallRow | None
    areas: Sequence[Area] = ()
    people: Choices = field(default_factory=tuple)
    crews: Choices = field(default_factory=tuple)


def of_call(call: UUID) -> OfCall:
    """Where a page about that call is; 404 for who asks to see one that they may not, or that is not there."""
    scope = asker().scope
    with store().reading() as tx:
        found = call_with_id(scope, tx, call=call)
        if found is None:
            if request.method == "GET":
                abort(404)
            return OfCall(call=None)
        return OfCall(
            call=found,
            areas=[area for area in areas(scope, tx) if area.id == found.area],
            people=[(str(row.id), row.name) for row in people_of(scope, tx, area=found.area)],
            crews=[(str(row.id), row.name) for row in crews_of(scope, tx, area=found.area)],
        )
