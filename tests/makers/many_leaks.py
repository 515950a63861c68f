"""Leaks by the thousand in a moment: rows written straight into the tables that lists are read from, past the door.

Such a book has no journal for them: it is good for reading lists, and for nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any
from uuid import UUID

from sqlalchemy import Table

from repairlog.entries.ids import uuid8
from repairlog.entries.moments import moment_text
from repairlog.records.store import Store
from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.bulk import put_rows
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS, STREET, SUBJECT
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.worked import GAP, LEAK
from tests.makers.book import Book

TOWNS = ("Harrowsedge", "Millbeck", "Saltern", "Oxmoor", "Wey Cross")
STREETS = 400
LAST = date(2026, 2, 28)
DAYS = 4000
TOGETHER = 5000
RECEIVED = datetime(2026, 3, 1, 12, tzinfo=UTC)

Row = dict[str, Any]


def street_name(place: int) -> str:
    """The name of one of the streets, as it was first written."""
    return f"{('Quarry', 'Mill', 'Fuller', 'Priory', 'Tanner')[place % 5]} {('Lane', 'Row', 'Road')[place % 3]} {place}"


def town_of(place: int) -> str:
    """The town of that street."""
    return TOWNS[place * len(TOWNS) // STREETS]


def number_of(place: int) -> str:
    """The number of the leak at that place."""
    return f"{('ES', 'HF')[place % 2]}-{day(place).year % 100:02d}-{place:06d}"


def other_number_of(place: int) -> str:
    """The number that others know that leak by; every tenth has one."""
    return f"W-{place}"


def fill(book: Book, *, how_many: int) -> None:
    """Put that many leaks into the tables: half in each area, a twentieth open, in 400 streets, over eleven years."""
    put(book.store, STREET, map(street, range(STREETS)))
    for first in range(0, how_many, TOGETHER):
        places = range(first, min(first + TOGETHER, how_many))
        for table, make in _ROWS.items():
            put(book.store, table, (row for place in places if (row := make(book, place))))
    analyse(book.store)


def analyse(store: Store) -> None:
    """Have PostgreSQL look at how its rows are spread, as it does by itself after a while; SQLite never does."""
    if store.dialect == "postgresql":
        with store.writing() as tx:
            tx.connection.exec_driver_sql("ANALYZE")


def put(store: Store, table: Table, rows: Iterator[Row] | Any) -> None:
    cells = [tuple(_cell(store.dialect, row.get(column.name)) for column in table.columns) for row in rows]
    with store.writing() as tx:
        if cells:
            put_rows(tx, table, rows=cells)


def _cell(dialect: str, value: Any) -> Any:
    if dialect == "postgresql":
        return value
    if isinstance(value, UUID):
        return value.bytes
    if isinstance(value, datetime):
        return moment_text(value)
    return value.isoformat() if isinstance(value, date) else value


def leak_id(place: int) -> UUID:
    """The id of the leak at that place."""
    return uuid8("many leaks", str(place))


def day(place: int) -> date:
    return LAST - timedelta(days=place * 7919 % DAYS)


def street_id(place: int) -> UUID:
    return uuid8("street", str(place))


def street(place: int) -> Row:
    name, town = street_name(place).upper(), town_of(place).upper()
    return {"id": street_id(place), "name": name, "town": town, "search_key": search_key(f"{name} {town}")}


def _leak(book: Book, place: int) -> Row:
    open_ = place % 20 == 0
    grade = "1" if place % 50 == 0 else "2" if place % 3 == 0 else "3"
    return {
        "id": leak_id(place),
        "number": number_of(place),
        "area_id": UUID(_area(book, place)),
        "status": "open" if open_ else "ended",
        "reported_on": day(place),
        "grade_found": grade,
        "rank_found": int(grade),
        "grade_now": grade,
        "rank_now": int(grade),
        "house_number": str(place % 90 + 1),
        "street_id": street_id(place % STREETS),
        "sources": 1,
        "attempts": place % 3,
        "ended_on": None if open_ else day(place) + timedelta(days=30),
        "ended_how": None if open_ else "repaired",
        "engine": ENGINE_VERSION,
    }


def _area(book: Book, place: int) -> str:
    return book.other_area if place % 2 else book.area


def _opened(book: Book, place: int) -> Row:
    return {
        "id": leak_id(place),
        "area_id": UUID(_area(book, place)),
        "happened": day(place).isoformat(),
        "house_number": str(place % 90 + 1),
        "street": street_name(place % STREETS),
        "town": town_of(place % STREETS),
        "number_given": number_of(place),
        "street_id": street_id(place % STREETS),
    }


def _entry(book: Book, place: int) -> Row:
    return {
        "id": leak_id(place),
        "journal_index": 1_000_000 + place,
        "kind": "leak_opened",
        "subject_id": leak_id(place),
        "happened_on": day(place),
        "zone": "America/New_York",
        "received_at": RECEIVED,
        "typed_by": book.everyone.person,
        "sent_by": book.everyone.person,
        "sure": "system",
        "corrected": False,
        "void": False,
    }


def _subject(book: Book, place: int) -> Row:
    return {"id": leak_id(place), "kind": "leak", "area_id": UUID(_area(book, place))}


def _number(_book: Book, place: int) -> Row:
    row = {"entry_id": leak_id(place), "key": "n1", "what": "work order", "number": other_number_of(place)}
    return row if place % 10 == 0 else {}


def _gap(_book: Book, place: int) -> Row:
    row = {"subject_id": leak_id(place), "code": "grade_not_known", "entry_id": leak_id(place), "row_key": ""}
    return row | {"facts": "{}", "engine": ENGINE_VERSION} if place % 7 == 0 else {}


_ROWS = {
    SUBJECT: _subject,
    OF_KIND["leak_opened"]: _opened,
    OF_ROWS["leak_opened", "outside_numbers"]: _number,
    ENTRY: _entry,
    LEAK: _leak,
    GAP: _gap,
}

TABLES = (STREET, *_ROWS)
"""The tables that are filled."""
