"""The list of gaps: by code, area and day, those set aside apart, page by page; and work that is in hand."""

from __future__ import annotations

from datetime import date

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.gaps import GapEdge, GapRow, WantedGaps, gaps, gaps_by_code
from repairlog.records.queries.work import work_in_hand, work_of
from repairlog.records.store import Store
from tests.makers import book as m


def found(store: Store, *, scope: Scope = EVERYTHING, most: int = 50, **asked: object) -> list[GapRow]:
    with store.reading() as tx:
        return gaps(scope, tx, asked=WantedGaps(**asked), after=None, most=most)  # type: ignore[arg-type]


def test_gaps_are_found_by_code_area_and_day_and_those_set_aside_apart(store: Store) -> None:
    book = m.opened(store)
    here, there = m.leak(book), m.leak(book, area=book.other_area, happened="2026-03-04")
    odd = [m.grade(here["id"], grade="C+"), m.grade(there["id"], grade="9", happened="2026-03-04 12:00")]
    again = m.reopened(here["id"], happened="2026-03-05")
    book.say(here, there, *odd, again, m.set_aside(here["id"], again["id"], "reopened_while_open"))
    codes = [(row.code, row.on) for row in found(store)]
    assert codes == [("grade_not_known", "2026-03-04"), ("grade_not_known", "2026-03-03")]
    [aside] = found(store, aside=True)
    assert (aside.code, aside.why_aside, aside.kind) == (
        "reopened_while_open",
        "looked into; nothing to be done",
        "leak_reopened",
    )
    assert [row.leak for row in found(store, area=read_id(book.other_area))] == [read_id(there["id"])]
    assert [row.leak for row in found(store, scope=Scope(areas=frozenset({read_id(book.area)})))] == [
        read_id(here["id"])
    ]
    assert found(store, code="expired_lot_used") == []
    for on, rows in ((date(2026, 3, 2), 0), (date(2026, 3, 3), 1), (date(2026, 3, 4), 2)):
        assert len(found(store, until_on=on)) == rows
    assert len(found(store, from_on=date(2026, 3, 4))) == 1
    with store.reading() as tx:
        assert gaps_by_code(EVERYTHING, tx, asked=WantedGaps(code="expired_lot_used")) == {"grade_not_known": 2}


def test_pages_of_gaps_follow_each_other_without_a_gap_between(store: Store) -> None:
    book = m.opened(store)
    leak = m.leak(book)
    named = [{"key": f"m{place}", "named": f"W-{place}"} for place in range(1, 6)]
    book.say(leak, *(m.attempt(leak["id"], materials=named, happened=f"2026-03-0{day}") for day in (4, 5)))
    every, seen = found(store), []
    with store.reading() as tx:
        after = None
        while page := gaps(EVERYTHING, tx, asked=WantedGaps(), after=after, most=3):
            seen += page
            last = page[-1]
            after = GapEdge(on=date.fromisoformat(last.on), entry=last.entry, code=last.code, row=last.row)
    assert (len(every), seen) == (10, every)


def test_a_person_has_in_hand_what_was_given_to_them_or_to_a_crew_of_theirs(store: Store) -> None:
    book = m.opened(store)
    leak, crew, jo = m.leak(book), m.new_id(), book.crew.person
    member = {"key": "m1", "person": str(jo), "from_on": "2026-03-01", "until_on": "2026-03-05"}
    made = {"kind": "crew_made", "id": crew, "area": book.area, "name": "Truck 4", "members": [member]}
    to_crew = m.given(leak["id"], crew=crew, named=None, by_on="2026-03-09")
    to_jo = m.given(leak["id"], work="re_evaluation", person=str(jo), named=None, by_on="2026-03-06")
    other = m.given(leak["id"], work="restoration")
    book.say(made | {"happened": "2026-03-01"}, leak, to_crew, to_jo, other)
    with store.reading() as tx:
        for on, mine in ((date(2026, 3, 5), [to_jo, to_crew]), (date(2026, 3, 6), [to_jo])):
            rows = work_in_hand(EVERYTHING, tx, person=jo, on=on, most=9)
            assert [row.id for row in rows] == [read_id(each["id"]) for each in mine]
        assert [(row.whom, row.by_on) for row in work_of(EVERYTHING, tx, leak=read_id(leak["id"]))] == [
            ("Truck 4", "2026-03-09"),
            ("M. Aldous", "2026-03-06"),
            ("Truck 4", ""),
        ]
