"""Today as a supervisor and a crew read it: what waits to be looked over, and what was given to whom."""

from __future__ import annotations

import re
from datetime import UTC, datetime

from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id
from repairlog.records.beside.unfinished import Unfinished, keep
from tests.makers import book as m
from tests.makers.site import site

NOW = Moments(received=datetime.now(UTC))


def ways(page: str) -> set[str]:
    """Every address that the page leads to."""
    return set(re.findall(r'href="(/leaks/[^"]+)"', page))


def test_a_supervisor_sees_what_waits_and_a_crew_what_is_given_to_it(book: m.Book, leak: str) -> None:
    supervisor, crew = (site(book).client(who) for who in (book.supervisor, book.crew))
    assert "No repair waits to be accepted" in supervisor.get("/today").text
    assert "Nothing is given to you" in crew.get("/today").text
    assert "Given to you" not in supervisor.get("/today").text
    attempt, first = m.attempt(leak), m.grade(leak, grade="1")
    lower = m.grade(leak, grade="2", happened="2026-03-04")
    book.say(attempt, first, lower, m.given(leak, work="restoration", person=str(book.crew.person), by_on="2026-03-01"))
    to_do = {f"/leaks/{leak}/attempts/{attempt['id']}/review", f"/leaks/{leak}/grades/{lower['id']}/review"}
    assert ways(supervisor.get("/today").text) == to_do
    seen = crew.get("/today").text
    assert ways(seen) == {f"/leaks/{leak}"}
    assert ("Restoration of the surface: 14 Quarry Lane" in seen, "the day is past" in seen) == (True, True)
    book.say(m.review(leak, attempt["id"]), m.downgrade(leak, lower["id"]))
    late = m.visit(leak)
    book.say(late, moments=NOW)
    assert ways(supervisor.get("/today").text) == {f"/leaks/{leak}#e-{late['id']}"}


def test_what_somebody_left_unfinished_stands_on_their_own_today(book: m.Book) -> None:
    left = m.leak(book)
    keep(
        book.store,
        Unfinished(
            id=read_id(left["id"]),
            person=book.crew.person,
            because="not_understood",
            form="entries",
            raw=[left],
            kept_at=NOW.received,
        ),
    )
    supervisor, crew = (site(book).client(who).get("/today").text for who in (book.supervisor, book.crew))
    assert (f'href="/unfinished/{left["id"]}"' in crew, "You left unfinished" in supervisor) == (True, False)


def test_what_was_not_tight_waits_for_nobody_once_it_was_made_again(book: m.Book, leak: str) -> None:
    source = m.source(leak)
    first = m.attempt(leak, outcome="not_tight", source=source["id"], happened="2026-03-05 09:00")
    book.say(source, first)
    supervisor = site(book).client(book.supervisor)
    assert ways(supervisor.get("/today").text) == {f"/leaks/{leak}/attempts/{first['id']}/review"}
    again = m.attempt(leak, outcome="tight", source=source["id"], happened="2026-03-05 11:00")
    book.say(again)
    assert ways(supervisor.get("/today").text) == {f"/leaks/{leak}/attempts/{again['id']}/review"}
