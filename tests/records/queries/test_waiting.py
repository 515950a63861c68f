"""What waits for a supervisor: repairs that nobody accepted, emergencies that nobody reviewed, and what came in after
what it happened before."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from repairlog.access import EVERYTHING, Actor, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.waiting import came_in_after, emergencies_to_review, repairs_to_accept
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c


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


LEAK, CALL = m.new_id(), m.new_id()
OUT = c.moment(LEAK)
CONTROLLED = c.moment(LEAK, moment="gas_under_control", happened="2026-03-04 23:00")
SAFE = c.moment(LEAK, moment="area_made_safe", happened="2026-03-04 23:30")
REVIEWED = c.emergency_reviewed(LEAK, happened="2026-03-05")
CALLED = [c.sent(CALL), c.outcome(CALL, outcome="operators_leak", found_leak=LEAK)]


@pytest.mark.parametrize(
    ("told", "waits"),
    [
        pytest.param([SAFE, c.moment(LEAK, moment="street_closed")], "", id="no emergency"),
        pytest.param([OUT, CONTROLLED], "", id="not safe yet"),
        pytest.param([OUT, SAFE | {"happened": "2026-03-02 23:59"}], "", id="safe the day before"),
        pytest.param([OUT, SAFE | {"happened": "2026-03-03 09:00"}], "out", id="safe the same day"),
        pytest.param([OUT, CONTROLLED, SAFE], "out", id="one line a leak, the first that was entered"),
        pytest.param([m.void(OUT["id"]), SAFE, OUT], "", id="in error"),
        pytest.param([OUT, SAFE, m.void(SAFE["id"])], "", id="made safe in error"),
        pytest.param([OUT, CONTROLLED, SAFE, REVIEWED], "", id="reviewed"),
        pytest.param([OUT, SAFE, REVIEWED | {"happened": "2026-03-03"}], "", id="reviewed the same day"),
        pytest.param([OUT, SAFE, REVIEWED | {"happened": "2026-03-02"}], "out", id="reviewed the day before"),
        pytest.param([OUT, SAFE, REVIEWED, m.void(REVIEWED["id"])], "out", id="void review"),
        pytest.param([OUT, SAFE, *CALLED], "out", id="the call is not reviewed"),
        pytest.param([OUT, SAFE, *CALLED, c.reviewed(CALL)], "", id="the call is reviewed"),
        pytest.param([OUT, SAFE, *CALLED, c.reviewed(CALL, outcome="returned")], "out", id="the call is returned"),
        pytest.param([OUT, SAFE, m.void(LEAK)], "", id="opened in error"),
    ],
)
def test_an_emergency_waits_once_it_is_safe_until_it_is_reviewed(
    sqlite_store: Store, told: list[dict[str, Any]], waits: str
) -> None:
    book = m.opened(sqlite_store)
    book.say(c.call(book, id=CALL), m.leak(book, id=LEAK), *sorted(told, key=lambda each: each["kind"] == "void"))
    with sqlite_store.reading() as tx:
        rows = emergencies_to_review(EVERYTHING, tx, most=9)
        elsewhere = emergencies_to_review(Scope(areas=frozenset({read_id(book.other_area)})), tx, most=9)
    assert ([row.id for row in rows], elsewhere) == ([read_id(OUT["id"])] if waits else [], [])


def test_an_emergency_waits_for_nobody_before_the_cut_over_day_nor_one_of_a_list(store: Store) -> None:
    book = m.opened(store)
    days = ("2026-03-02", "2026-03-03", "2026-03-04")
    leaks = [m.leak(book, happened="2026-03-01") for _ in days]
    book.say(*leaks, *(c.moment(leak["id"], happened=f"{on} 08:00") for leak, on in zip(leaks, days, strict=True)))
    book.say(*(c.moment(leak["id"], moment="area_made_safe", happened="2026-03-04 09:00") for leak in leaks))
    listed = m.leak(book)
    moments = [c.moment(listed["id"], moment=which) for which in ("people_out", "area_made_safe")]
    book.say(
        listed, *moments, by=Actor(person=book.everyone.person, sure="import", memberships=book.officer.memberships)
    )
    book.say(m.cut_over(book.area, cut_over_on="2026-03-03"))
    with store.reading() as tx:
        every = emergencies_to_review(EVERYTHING, tx, most=9)
        first = emergencies_to_review(EVERYTHING, tx, most=1)
    assert [(row.leak, row.on) for row in every] == [
        (read_id(leak["id"]), on) for leak, on in zip(leaks[1:], days[1:], strict=True)
    ]
    assert first == every[:1]
