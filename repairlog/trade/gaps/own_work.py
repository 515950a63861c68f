"""Who accepted a repair, held against who did it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from repairlog.entries.entry import Standing
from repairlog.trade.answers_to import Answers
from repairlog.trade.gap import Gap
from repairlog.trade.rests import Rests


def accepted_by_who_did_it(
    live: Sequence[Standing], *, by_id: Mapping[str, Standing], answered: Answers, rests: Rests
) -> Iterator[Gap]:
    """Repairs accepted by somebody who did them, where the leak's area of that day says that nobody accepts their own
    work. Where it says that they may, or says nothing, none is raised: who may accept is the operator's own rule, and
    with three people it is said once. `by_id`: the leak's entries that stand, `live` in the order they happened;
    `answered`: the areas to which it answered."""
    for entry in live:
        attempt = by_id.get(entry.text("attempt"))
        accepted = entry.kind == "repair_reviewed" and entry.text("outcome") == "accepted"
        if accepted and attempt is not None and who_did(entry) & who_did(attempt):
            area = rests.areas.get(answered.then(entry))
            if area is not None and area.own_acceptance is False:
                yield Gap(code="accepted_by_who_did_it", entry=entry.id)


def who_did(entry: Standing) -> set[str]:
    """Those on the books who did it, or a task of it; a name alone may be anybody's."""
    rows = [*entry.by.get("did", ()), *entry.rows("people")]
    return {row["person"] for row in rows if "person" in row}
