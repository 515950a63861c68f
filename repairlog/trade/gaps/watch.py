"""The watch of a leak as it passes from one named person to the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from repairlog.entries.entry import Standing
from repairlog.trade.gap import Gap


def handed_on(live: Sequence[Standing]) -> Iterator[Gap]:
    """A watch that goes to nobody, and one that comes from another person than the one who had it. `live`: the leak's
    entries that stand, in the order they happened. Whoever left the site handed nothing on."""
    had: Standing | None = None
    for entry in live:
        if entry.kind == "moment_noted" and entry.text("moment") == "left_site":
            had = None
        if entry.kind != "watch_handed":
            continue
        if not (entry.text("to_person") or entry.text("to_named")):
            yield Gap(code="watch_handed_to_nobody", entry=entry.id)
        if had is not None and _another(entry, had):
            yield Gap(code="watch_handed_by_another", entry=entry.id, facts={"handed_on": had.on})
        had = entry


def _another(entry: Standing, had: Standing) -> bool:
    """Two people on the books who are not the same. A name alone may be anybody's, and accuses nobody."""
    gives, has = entry.text("from_person"), had.text("to_person")
    return bool(gives and has and gives != has)
