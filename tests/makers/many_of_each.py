"""So many of everything that a page lists, put into the full book through the door, some hundreds of entries a call."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

from repairlog.entries.ids import read_id
from repairlog.records.beside.looked_at import list_look
from repairlog.records.beside.unfinished import Unfinished, keep
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.full_book import FullBook
from tests.makers.kept import whole

AT_ONCE = 500
"""Entries a call."""

SELDOM = 10
"""Of what a page shows a few of, or all of it at once, there is one where there are so many of all else."""

CONTRACTOR = "Dale Pipe Co"

Raw = dict[str, Any]


def add(full: FullBook, *, how_many: int) -> None:
    """Put them in."""
    told = [entry for _ in range(how_many) for entry in _own(full)]
    told += [entry for _ in range(0, how_many, SELDOM) for entry in _a_leak_that_ended(full.book)]
    told += [
        entry for _ in range(how_many) for entry in _of_one(full)
    ]  # in few calls: each folds all that stands before
    for first in range(0, len(told), AT_ONCE):
        full.book.say(*told[first : first + AT_ONCE])
    for place in range(0, how_many, SELDOM // 2):
        _beside(full, place)


def _own(full: FullBook) -> Iterator[Raw]:
    """Each a subject of its own."""
    book, ids = full.book, full.ids
    yield from _a_leak_to_work_on(book, ids)
    call, out = c.call(book), c.call(book)
    yield from (call, out, c.sent(out["id"], crew=ids["crew"]))
    yield s.received(book, expires_on="2026-04-01", shelf="bay 2")
    person = m.person("T. Birkett", company=CONTRACTOR)
    yield from (person, m.role_given(person["id"], area=book.area), m.qualified(person["id"], evaluator=person["id"]))
    yield m.crew(book, members=[{"key": "m1", "person": person["id"]}])
    yield m.instrument(book)


def _of_one(full: FullBook) -> Iterator[Raw]:
    """All said of the same few subjects."""
    ids = full.ids
    yield m.visit(ids["ended"], happened="2026-03-05 10:10")
    yield m.qualified(ids["crew_leader"], task="squeeze off")
    yield m.checked(ids["meter"], happened="2026-03-03 06:45")
    yield s.counted(ids["clamps"])
    dig = d.dig(full.book, [ids["served"]])
    yield from (dig, d.owed(dig["id"]), d.place(full.book), s.shelf(full.book))
    yield whole(ids["ended"], from_entry=ids["attempt"])
    yield d.linked(ids["ended"], ids["served"])


def _a_leak_to_work_on(book: m.Book, ids: dict[str, str]) -> Iterator[Raw]:
    """Open, graded lower, given to a crew, watched over; a repair of it, which used a lot, waits to be accepted."""
    leak = m.leak(book)
    at = leak["id"]
    materials = [{"key": "m1", "lot": ids["clamps"], "used": "1"}]
    people = [{"key": "p1", "person": ids["guest"], "task": "install clamp"}]
    attempt = m.attempt(at, materials=materials, people=people)
    yield from (
        leak,
        m.visit(at, instrument_used=ids["meter"]),
        m.grade(at, grade="1"),
        m.grade(at, grade="3", happened="2026-03-03 09:00"),
        attempt,
    )
    yield from (m.given(at, crew=ids["crew"], by_on="2026-03-06"), c.watch(at, to_person=ids["crew_leader"]))


def _a_leak_that_ended(book: m.Book) -> Iterator[Raw]:
    """Something came in after; nobody has looked over what people did in the first hour."""
    leak = m.leak(book, street="Mill Lane")
    attempt = m.attempt(leak["id"])
    yield from (leak, c.moment(leak["id"]), c.moment(leak["id"], moment="area_made_safe"))
    yield from (attempt, m.ending(leak["id"], [attempt["id"]]), m.visit(leak["id"]))


def _beside(full: FullBook, place: int) -> None:
    """What is no entry: a note that was left unfinished, and a page that an inspector looked at."""
    crew = full.book.crew.person
    note = m.note(full.ids["ended"], happened="soon")
    left = {"person": crew, "because": "not_understood", "form": "entries", "raw": [note], "kept_at": m.RECEIVED}
    keep(full.book.store, Unfinished(id=read_id(note["id"]), **left))
    page = {
        "page": "sheet.page",
        "address": f"/leaks/{full.ids['ended']}?{place}",
        "subject": read_id(full.ids["ended"]),
    }
    list_look(full.book.store, person=read_id(full.ids["guest"]), at=datetime(2026, 3, 5, 9, tzinfo=UTC), **page)
