"""Calls by the thousand in a moment: rows written straight into the tables that their list is read from, past the door.

Like a book of `many_leaks` it is good for reading lists, and for nothing else.
"""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

from repairlog.entries.ids import uuid8
from repairlog.records.tables import ENGINE_VERSION
from repairlog.records.tables.facts import OF_KIND, STREET
from repairlog.records.tables.search_key import search_key
from repairlog.records.tables.worked import CALL, OUTSIDE_NUMBER
from tests.makers import many_leaks as leaks
from tests.makers.book import Book

OUTCOMES = ("nothing_found", "customers", "operators_leak", "no_access")

Row = dict[str, Any]


def fill(book: Book, *, how_many: int) -> None:
    """Put that many calls into the tables: half in each area, a fiftieth not ended, in 400 streets, over eleven
    years."""
    leaks.put(book.store, STREET, map(leaks.street, range(leaks.STREETS)))
    for table, make in _ROWS.items():
        leaks.put(book.store, table, (row for place in range(how_many) if (row := make(book, place))))
    leaks.analyse(book.store)


def call_id(place: int) -> UUID:
    """The id of the call at that place."""
    return uuid8("many calls", str(place))


def day(place: int) -> date:
    """The day on which it was received."""
    return leaks.day(place)


def number_of(place: int) -> str:
    """The number of the call at that place."""
    return f"{('ES', 'HF')[place % 2]}-C{day(place).year % 100:02d}-{place:06d}"


def other_number_of(place: int) -> str:
    """The number that others know that call by; every tenth has one."""
    return f"911-{place}"


def _area(book: Book, place: int) -> UUID:
    return UUID(book.other_area if place % 2 else book.area)


def _call(book: Book, place: int) -> Row:
    open_ = place % 50 == 0
    return {
        "id": call_id(place),
        "number": number_of(place),
        "area_id": _area(book, place),
        "status": "received" if open_ else "ended",
        "report": "carbon_monoxide" if place % 20 == 0 else "odor",
        "received_on": day(place),
        "outcome": None if open_ else OUTCOMES[place % 4],
        "ended_on": None if open_ else day(place),
        "reviewed": False,
        "street_id": leaks.street_id(place % leaks.STREETS),
        "engine": ENGINE_VERSION,
    }


def _received(book: Book, place: int) -> Row:
    said = {"id": call_id(place), "area_id": _area(book, place), "happened": day(place).isoformat(), "report": "odor"}
    street = {"street": leaks.street_name(place % leaks.STREETS), "town": leaks.town_of(place % leaks.STREETS)}
    return said | street | {"street_id": leaks.street_id(place % leaks.STREETS)}


def _other_number(_book: Book, place: int) -> Row:
    if place % 10:
        return {}
    number = other_number_of(place)
    row = {"subject_id": call_id(place), "entry_id": call_id(place), "what": "incident", "number": number}
    return row | {"search_key": search_key(number), "row_key": "", "engine": ENGINE_VERSION}


_ROWS = {CALL: _call, OF_KIND["call_received"]: _received, OUTSIDE_NUMBER: _other_number}
