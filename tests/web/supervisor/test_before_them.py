"""Today as a supervisor and a crew read it: what waits to be looked over, and what was given to whom."""

from __future__ import annotations

import re
from datetime import UTC, datetime

from repairlog.entries.entry import Moments
from tests.makers import book as m
from tests.makers.site import site

NOW = Moments(received=datetime.now(UTC))


def ways(page: str) -> set[str]:
    """Every address that the page leads to."""
    return set(re.findall(r'href="(/leaks/[^"]+)"', page))


def test_a_supervisor_sees_what_waits_and_a_crew_what_is_given_to_it(book: m.Book, leak: str) -> None:
    supervisor, crew = (site(book).client(who) for who in (book.supervisor, book.crew))
    assert "No repair waits to be accepted" in supervisor.get("/today").text
    assert "Given to you" not in crew.get("/today").text
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
