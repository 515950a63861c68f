"""An operating area's settings as they stand, folded from its own entries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing, order_of_happening
from repairlog.trade.adopted import Adoption, Confirmed, adoptions, confirmed

USUAL_LEL_BASIS = "5.0"
"""Percent methane that counts as 100 %LEL unless the area says otherwise: ISO 10156, NFPA 325."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """`elevation`: canonical, such as `1609.344 m`; empty where none was said, which counts as sea level.
    `settings_version`: how many entries its story has: every change of its settings counts one up.
    `cut_over_on`: the first day on which what is missing in a record is raised; empty where every day is. `calendar`:
    of its working days, empty where none was set. `adoptions`: each with the days on which its rulebook holds, in their
    order; `confirmed`: the rules that were confirmed. `typing_hours`: how long
    after the work an entry may be typed; None where nobody said. `own_acceptance`: whoever did the work may accept it
    here; None where nobody said."""

    id: UUID
    name: str
    code: str
    zone: str
    elevation: str
    lel_basis: str
    settings_version: int
    cut_over_on: str = ""
    calendar: str = ""
    adoptions: tuple[Adoption, ...] = ()
    confirmed: tuple[Confirmed, ...] = ()
    typing_hours: int | None = None
    own_acceptance: bool | None = None


def area(entries: Sequence[Standing]) -> Area | None:
    """The area that these entries tell of; None if none of them opens it."""
    opened = next((entry for entry in entries if entry.kind == "area_opened"), None)
    if opened is None:
        return None
    live = sorted((entry for entry in entries if entry.void is None), key=order_of_happening)
    last = {entry.kind: entry for entry in live}  # of each kind, what was said last
    cut_over, typing, own = (last.get(kind) for kind in ("cut_over_set", "typing_time_set", "own_acceptance_said"))
    calendars = [entry.text("calendar") for entry in live if entry.kind == "working_days_set"]
    return Area(
        id=opened.id,
        name=opened.text("name"),
        code=opened.text("code"),
        zone=opened.text("zone"),
        elevation=str(opened.understood.get("elevation", "")),
        lel_basis=opened.text("lel_basis") or USUAL_LEL_BASIS,
        settings_version=len(entries),
        calendar=calendars[-1] if calendars else "",
        adoptions=adoptions(live),
        confirmed=confirmed(live),
        cut_over_on=cut_over.text("cut_over_on") if cut_over else "",
        typing_hours=typing.said["hours"] if typing else None,
        own_acceptance=own.text("accepts") == "yes" if own else None,
    )
