"""A book that holds what the examples of entries speak about, as the demo's does."""

from __future__ import annotations

from datetime import UTC, datetime

from repairlog.entries.entry import Moments
from repairlog.entries.example_ids import OTHER_AREA
from repairlog.entries.examples import AREA, CREW_LEADER, EXAMPLES, FIRST_DAY, STANDS_BEFORE, Raw
from repairlog.records.store import Store
from tests.makers import book as m

LATER = Moments(received=datetime(2026, 11, 2, 9, 0, tzinfo=UTC))
"""After everything that the examples tell of."""

POSTED = tuple(raw for raws in EXAMPLES.values() for raw in raws if raw["kind"] != "operator_opened")
"""Every example but the opening of the book, of which a book has one."""


def example_book(store: Store) -> m.Book:
    """Open a small book on an empty database, with what the examples speak about beside what is its own."""
    book = m.opened(store)
    day = {"happened": FIRST_DAY}
    area = {"kind": "area_opened", "id": AREA, "name": "Harrowsedge", "code": "HS", "zone": "America/New_York"} | day
    other = {
        "kind": "area_opened",
        "id": OTHER_AREA,
        "name": "Weirside",
        "code": "WR",
        "zone": "America/New_York",
    } | day
    leader = {"kind": "person_added", "id": CREW_LEADER, "name": "I. Sabo"} | day
    book.say(area, other, leader, *map(dict, STANDS_BEFORE), moments=LATER)
    return book


def named(raw: Raw) -> str:
    """A name for an example, among those of its kind."""
    return f"{raw['kind']}-{EXAMPLES[raw['kind']].index(raw)}"
