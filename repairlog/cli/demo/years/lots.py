"""The lots that an area's stores receive and scrap over the years, and which one a crew takes on a day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import groupby
from random import Random
from types import MappingProxyType
from typing import Any

from repairlog.cli.demo.years.hours import working_day
from repairlog.cli.demo.years.shares import Shares, happens

MADE = (
    ("bolt-on clamp", "Brackwater Works", "CL", None),
    ("joint sealant, two-part", "Fenlock", "JS", 480),
    ("thread sealant", "Fenlock", "TS", 700),
    ("PE coupling", "Orrin & Sons", "PC", 1400),
    ("wrap tape, 2 in", "Brackwater Works", "WT", 540),
)
"""What stores order again and again: the item, its maker, how its lots are marked, and how many days it keeps."""

ORDERED = MappingProxyType(
    {
        "ES": {"CL": "32", "JS": "8 kits", "TS": "20 tubes", "PC": "12", "WT": "12 rolls"},
        "HF": {"CL": "20", "TS": "14 tubes", "PC": "10", "WT": "6 rolls"},
    }
)
"""How much of each an area orders at a time; Highfold has no cast iron, and so no joints to seal."""

EVERY = timedelta(days=122)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """`number`: as printed; `amount`: how much came. `expires_on`: the last day of use; None for what keeps.
    `scrapped_on`: when the storekeeper found it past that day; None for what keeps, or was overlooked."""

    item: str
    maker: str
    number: str
    amount: str
    received_on: date
    expires_on: date | None
    scrapped_on: date | None


def lots_received(area: str, *, first: date, last: date, shares: Shares) -> list[Lot]:
    """Every lot that came into that area's stores between these days."""
    found, day, count = [], first, 0
    while day <= last:
        count += 1
        for item, maker, mark, keeps in MADE:
            if mark not in ORDERED[area]:
                continue
            number = f"{mark}-{area}{count:02d}"
            expires_on = day + timedelta(days=keeps) if keeps else None
            found.append(
                Lot(
                    item=item,
                    maker=maker,
                    number=number,
                    amount=ORDERED[area][mark],
                    received_on=day,
                    expires_on=expires_on,
                    scrapped_on=_scrapped_on(expires_on, shares, number=number),
                )
            )
        day += EVERY
    return found


def _scrapped_on(expires_on: date | None, shares: Shares, *, number: str) -> date | None:
    """The first working day of the month after, when the shelves are gone through; now and then a lot is overlooked."""
    chance = Random(f"{shares['seed']} {number}")  # noqa: S311 - a story, no secret
    if expires_on is None or happens(chance, shares["flaws"]["lot_overlooked"]):
        return None
    return working_day((expires_on.replace(day=1) + timedelta(days=32)).replace(day=1))


def receipts(lots: list[Lot], *, by: str, keeper: str, last: date) -> Iterator[dict[str, Any]]:
    """A save for each delivery, and one for each day on which lots past their last day are scrapped, up to `last`."""
    for day, came in groupby(lots, key=lambda lot: lot.received_on):
        rows = [
            {"item": lot.item, "maker": lot.maker, "lot_number": lot.number, "received": lot.amount, "shelf": "bay 1"}
            | ({"expires_on": lot.expires_on.isoformat()} if lot.expires_on else {})
            for lot in came
        ]
        yield {"when": f"{datetime.combine(day, time(9, 20)):%Y-%m-%d %H:%M}", "by": by, "lot_received": rows}
    for day in sorted({lot.scrapped_on for lot in lots if lot.scrapped_on and lot.scrapped_on <= last}):
        gone = [{"lot": lot.number, "reason": "past its last day"} for lot in lots if lot.scrapped_on == day]
        yield {"when": f"{datetime.combine(day, time(8, 10)):%Y-%m-%d %H:%M}", "by": keeper, "lot_scrapped": gone}


def on_the_shelf(lots: list[Lot], item: str, *, on: date, old: bool = False) -> str | None:
    """The number of the lot of that item that a crew takes on that day: the newest; `old`: one that has run out and
    still lies there."""
    there = [lot for lot in lots if lot.item == item and lot.received_on <= on]
    if old:
        there = [lot for lot in there if lot.expires_on and lot.expires_on < on]
        there = [lot for lot in there if lot.scrapped_on is None or on < lot.scrapped_on]
    return there[-1].number if there else None
