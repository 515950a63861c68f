"""The lots that an area's stores receive over the years, and which of them a crew takes from the shelf on a day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

MADE = (
    ("bolt-on clamp", "Brackwater Works", "CL", None),
    ("joint sealant, two-part", "Fenlock", "JS", 480),
    ("thread sealant", "Fenlock", "TS", 700),
    ("PE coupling", "Orrin & Sons", "PC", 1400),
    ("wrap tape, 2 in", "Brackwater Works", "WT", 540),
)
"""What stores order again and again: the item, its maker, how its lots are marked, and how many days it keeps."""

EVERY = timedelta(days=122)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """`number`: as printed. `expires_on`: the last day of use; None for what keeps."""

    item: str
    maker: str
    number: str
    received_on: date
    expires_on: date | None


def lots_received(area: str, *, first: date, last: date) -> list[Lot]:
    """Every lot that came into that area's stores between these days."""
    found, day, count = [], first, 0
    while day <= last:
        count += 1
        for item, maker, mark, keeps in MADE:
            expires_on = day + timedelta(days=keeps) if keeps else None
            number = f"{mark}-{area}{count:02d}"
            found.append(Lot(item=item, maker=maker, number=number, received_on=day, expires_on=expires_on))
        day += EVERY
    return found


def receipts(lots: list[Lot], *, by: str) -> Iterator[dict[str, Any]]:
    """A save for each delivery."""
    for day in sorted({lot.received_on for lot in lots}):
        rows = [
            {"item": lot.item, "maker": lot.maker, "lot_number": lot.number, "received": "40", "shelf": "bay 1"}
            | ({"expires_on": lot.expires_on.isoformat()} if lot.expires_on else {})
            for lot in lots
            if lot.received_on == day
        ]
        yield {"when": f"{datetime.combine(day, time(9, 20)):%Y-%m-%d %H:%M}", "by": by, "lot_received": rows}


def on_the_shelf(lots: list[Lot], item: str, *, on: date, old: bool = False) -> str | None:
    """The number of the lot of that item that a crew takes on that day: the newest; `old`: one that has run out."""
    there = [lot for lot in lots if lot.item == item and lot.received_on <= on]
    if old:
        there = [lot for lot in there if lot.expires_on and lot.expires_on < on]
    return there[-1].number if there else None
