"""Times of one entry, or of two that cannot have come about the other way round: only what is plain raises anything.

Which comes before which is common practice, no source. By moment where both are known, else by day: one day tells no
order.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from repairlog.entries.entry import Standing
from repairlog.trade.gap import Gap
from repairlog.trade.gaps.order import is_before

STEPS = (("exposed", "fitted"), ("gas_stopped", "gas_restored"))
"""Steps of a repair of which the first comes before the second: a fitting goes onto a pipe that lies bare, and gas is
restored that was stopped. In which order the others come hangs on the method."""


def times_in_order(live: Sequence[Standing], by_id: Mapping[str, Standing]) -> Iterator[Gap]:
    """Every such gap of a leak. `live`: its entries that stand, in the order they happened; `by_id`: the same."""
    yield from _first_hour(live)
    for entry in live:
        if entry.kind == "visit" and _wrong_way(entry, "venting_started", "venting_stopped"):
            yield Gap(code="venting_stopped_before_it_started", entry=entry.id)
        if entry.kind == "repair_attempted" and any(_wrong_way(entry, *pair) for pair in STEPS):
            yield Gap(code="repair_steps_out_of_order", entry=entry.id)
        attempt = by_id.get(entry.text("attempt")) if entry.kind == "repair_reviewed" else None
        if attempt is not None and attempt.kind == "repair_attempted" and is_before(entry, attempt):
            facts = {"reviewed_on": entry.on, "repaired_on": attempt.on}
            yield Gap(code="reviewed_before_repair", entry=entry.id, facts=facts)


def _first_hour(live: Sequence[Standing]) -> Iterator[Gap]:
    """The site left before anybody was on it, people back before they were out: of the first of each."""
    first: dict[str, Standing] = {}
    for entry in live:
        if entry.kind == "moment_noted":
            first.setdefault(entry.text("moment"), entry)
    if _came_first(first, "left_site", "on_site"):
        yield Gap(code="left_before_on_site", entry=first["left_site"].id)
    if _came_first(first, "people_back", "people_out"):
        yield Gap(code="people_back_before_out", entry=first["people_back"].id)


def _came_first(first: Mapping[str, Standing], later: str, earlier: str) -> bool:
    return later in first and earlier in first and is_before(first[later], first[earlier])


def _wrong_way(entry: Standing, earlier: str, later: str) -> bool:
    """Whether the later of two times of one entry is known to lie before the earlier one."""
    on, other_on = entry.understood.get(f"{later}_on"), entry.understood.get(f"{earlier}_on")
    at, other_at = entry.understood.get(f"{later}_at"), entry.understood.get(f"{earlier}_at")
    if at and other_at:
        return bool(at < other_at)
    return bool(on and other_on and on < other_on)
