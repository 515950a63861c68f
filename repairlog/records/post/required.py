"""Which rulebook is sealed with an entry: the one that its area had adopted for its day, as far as the door knows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from uuid import UUID

from repairlog.entries.entry import Entry
from repairlog.entries.ids import read_id
from repairlog.trade.adopted import adopted_on
from repairlog.trade.area import Area
from repairlog.trade.rests import Rested


def rulebooks_required(
    fresh: Sequence[Entry], *, areas: Sequence[UUID | None], rested: Mapping[UUID, Rested]
) -> list[str]:
    """The digest for each of these entries, empty where none holds. `areas`: of each; `rested`: areas as they stand
    before the call. What the call itself adopts counts for the entries after it."""
    adopted: dict[UUID, dict[str, str]] = {}
    found = []
    for entry, area in zip(fresh, areas, strict=True):
        digest = ""
        if area is not None:
            on = str(entry.understood["happened_on"])
            standing = rested.get(area)
            before = adopted_on(standing.adoptions, on=on) if isinstance(standing, Area) else None
            days = adopted.get(area, {})
            here = max((day for day in days if day <= on), default="")
            digest = days[here] if here and (before is None or here >= before.from_on) else ""
            digest = digest or (before.digest if before else "")
        found.append(digest)
        if entry.kind == "rulebook_adopted":
            adopted.setdefault(read_id(entry.said["subject"]), {})[entry.said["from_on"]] = entry.said["digest"]
    return found
