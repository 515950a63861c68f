"""What waits for a supervisor: repairs that nobody accepted, and what came in after what it happened before."""

from __future__ import annotations

from datetime import timedelta

from repairlog.access import EVERYTHING, Actor, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.waiting import came_in_after, repairs_to_accept
from repairlog.records.store import Store
from tests.makers import book as m


def test_a_repair_waits_until_it_is_accepted_or_returned_and_one_of_a_list_never(store: Store) -> None:
    book = m.opened(store)
    leak, other = m.leak(book), m.leak(book, area=book.other_area)
    tries = [m.attempt(leak["id"], happened=f"2026-03-0{day} 09:00") for day in (5, 4)]
    listed, there = m.attempt(leak["id"]), m.attempt(other["id"], happened="2026-03-05")
    book.say(leak, other, *tries, there, m.review(leak["id"], there["id"]))
    book.say(listed, by=Actor(person=book.everyone.person, sure="import", memberships=book.officer.memberships))
    with store.reading() as tx:
        every = repairs_to_accept(EVERYTHING, tx, most=9)
        here = repairs_to_accept(Scope(areas=frozenset({read_id(book.area)})), tx, most=1)
    assert [row.id for row in every] == [read_id(each["id"]) for each in (tries[1], tries[0], there)]
    assert [(row.id, row.outcome, row.method) for row in here] == [(every[0].id, "tight", "bolt_on_clamp")]


def test_what_happened_before_an_ending_and_came_in_after_it_is_shown(store: Store) -> None:
    book = m.opened(store)
    leak, attempt = m.leak(book), m.attempt(m.new_id())
    attempt["leak"] = leak["id"]
    early, late, after = (m.visit(leak["id"], happened=on) for on in ("2026-03-03 09:00", "2026-03-04", "2026-03-05"))
    book.say(leak, early, attempt, m.review(leak["id"], attempt["id"], happened="2026-03-05 10:05"))
    book.say(late, m.corrected(early["id"], ("remarks", "seen")), after)
    with store.reading() as tx:
        for since, found in ((m.RECEIVED, [late]), (m.RECEIVED + timedelta(seconds=1), [])):
            rows = came_in_after(EVERYTHING, tx, since=since, most=9)
            assert [(row.id, row.kind) for row in rows] == [(read_id(each["id"]), "visit") for each in found]
