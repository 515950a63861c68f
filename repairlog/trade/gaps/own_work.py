"""Who accepted a repair, held against who did it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from repairlog.entries.entry import Standing
from repairlog.trade.area import Area
from repairlog.trade.gap import Gap


def accepted_by_who_did_it(
    live: Sequence[Standing], *, by_id: Mapping[str, Standing], area: Area | None
) -> Iterator[Gap]:
    """Repairs accepted by somebody who did them, where the area says that nobody accepts their own work. Where it says
    that they may, or says nothing, none is raised: who may accept is the operator's own rule, and with three people it
    is said once. `by_id`: the leak's entries that stand."""
    if area is None or area.own_acceptance is not False:
        return
    for entry in live:
        attempt = by_id.get(entry.text("attempt"))
        accepted = entry.kind == "repair_reviewed" and entry.text("outcome") == "accepted"
        if accepted and attempt is not None and _people(entry) & _people(attempt):
            yield Gap(code="accepted_by_who_did_it", entry=entry.id)


def _people(entry: Standing) -> set[str]:
    """Those on the books who did it, or a task of it; a name alone may be anybody's."""
    rows = [*entry.by.get("did", ()), *entry.rows("people")]
    return {row["person"] for row in rows if "person" in row}
