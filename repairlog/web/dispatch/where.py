"""The call that a page is about, its area, and who may be sent there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from uuid import UUID

from repairlog.intake.form import Choices
from repairlog.records.queries.calls import CallRow, call_with_id
from repairlog.trade.area import Area
from repairlog.web.frame.asking import asker, store
from repairlog.web.frame.there import area_there, crews_there, hide, people_there


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
    with store().reading() as tx:
        found = call_with_id(asker().scope, tx, call=call)
        if found is None:
            hide(found)
            return OfCall(call=None)
        here = area_there(tx, found.area)
        return OfCall(call=found, areas=here, people=people_there(tx, here), crews=crews_there(tx, here))
