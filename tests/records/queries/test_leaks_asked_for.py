"""Leaks asked for by what their stories tell: days of repair and of ending, crew, method, words in a note."""

from __future__ import annotations

from datetime import date

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.leaks import Wanted, how_many_leaks, leaks
from tests.makers import book as m
from tests.records.queries.test_leaks_plan import run


@pytest.fixture
def book(store):
    """Three leaks of 20 February: repaired and ended on 5 March, repaired in vain on 2 March, only visited; and one
    elsewhere."""
    book, day = m.opened(store), {"happened": "2026-02-20"}
    ended, in_vain, visited = (m.leak(book, house_number=name) | day for name in ("ended", "in vain", "visited"))
    tight = m.attempt(ended["id"])
    wrong = m.attempt(in_vain["id"], happened="2026-03-02", method="Tape wrap 100%", outcome="not_tight")
    other = m.leak(book, area=book.other_area, house_number="elsewhere") | day
    book.say(ended, tight, m.ending(ended["id"], [tight["id"]]), in_vain, wrong, visited, m.visit(visited["id"]), other)
    return book


def found(book, scope=EVERYTHING, **wanted):
    with book.store.reading() as tx:
        where = Wanted(**wanted)
        rows = [row.house_number for row in leaks(scope, tx, where=where, beyond=None, most=50)]
        assert how_many_leaks(scope, tx, where=where) == len(rows)
    return sorted(rows)


def test_a_period_is_of_reports_or_of_repairs_or_of_endings_both_its_days_counted_in(book):
    days = {"from_on": date(2026, 3, 2), "until_on": date(2026, 3, 5)}
    assert found(book, **days) == []
    assert found(book, by="repaired", **days) == ["ended", "in vain"]
    assert found(book, by="ended", **days) == ["ended"]
    assert found(book, by="repaired", from_on=date(2026, 3, 3), until_on=date(2026, 3, 4)) == []
    assert found(book, by="ended", from_on=date(2026, 3, 6)) == []
    assert found(book, by="ended", until_on=date(2026, 3, 4)) == []
    assert len(found(book, by="repaired")) == 4  # no day was asked for


def test_a_method_is_found_by_a_part_of_its_name(book):
    asked = {"bolt on": ["ended"], "BOLT_ON_CLAMP": ["ended"], "wrap 100%": ["in vain"], "%": ["in vain"], "x": []}
    assert {method: found(book, method=method) for method in asked} == asked


def test_a_crew_s_leaks_are_those_given_to_it_and_those_where_its_people_did_something_while_in_it(book):
    crew, row = m.new_id(), {"key": "m1", "person": str(book.crew.person), "until_on": "2026-03-03"}
    made = {"kind": "crew_made", "id": crew, "area": book.area, "name": "Truck 4", "happened": "2025-01-02"}
    by_crew, later, given = (m.leak(book, house_number=name) for name in ("by the crew", "later", "given"))
    work = {"kind": "work_given", "id": m.new_id(), "leak": given["id"], "crew": crew, "work": "repair"}
    did = {"did": [{"key": "d1", "person": str(book.crew.person)}]}
    book.say(
        made | {"members": [row]},
        *(by_crew, later, given),
        m.visit(by_crew["id"], happened="2026-03-03") | did,
        m.visit(later["id"], happened="2026-03-04") | did,
        work | {"happened": "2026-03-05"},
    )
    assert found(book, crew=m.read_id(crew)) == ["by the crew", "given"]
    with book.store.reading() as tx:
        assert [(str(each.id), each.name) for each in crews_in(EVERYTHING, tx)] == [(crew, "Truck 4")]
        assert crews_in(Scope(areas=frozenset({m.read_id(book.other_area)})), tx) == []


@pytest.mark.parametrize(
    ("on", "old", "new"),
    [
        ("2026-03-02", True, False),
        ("2026-03-03", True, False),
        ("2026-03-04", False, True),
        ("2026-03-05", False, True),
    ],
)
def test_what_a_person_did_is_of_the_crew_in_which_they_were_on_that_day(book, on, old, new):
    first, second, person = m.crew(book), m.crew(book, name="Truck 6", members=[]), str(book.crew.person)
    leaves = m.crew_changed(first["id"], happened="2026-03-03", name="Truck 4, nights")
    joins = m.crew_changed(second["id"], happened="2026-03-04", name="Truck 6")
    leak = m.leak(book, happened="2026-03-01 08:00")
    row = {"key": "k1", "person": person}
    book.say(first, second, leaves | {"left": [row]}, joins | {"joined": [row]}, leak)
    book.say(m.visit(leak["id"], happened=f"{on} 08:00", did=[{"key": "d1", "person": person}]))
    assert [bool(found(book, crew=m.read_id(crew["id"]))) for crew in (first, second)] == [old, new]
    with book.store.reading() as tx:
        assert [each.name for each in crews_in(EVERYTHING, tx)] == ["Truck 4, nights", "Truck 6"]


def test_notes_are_searched_for_every_word_in_any_order_and_void_ones_are_not(book):
    noted, void = m.leak(book, house_number="noted"), m.leak(book, house_number="void")
    wrong = m.note(void["id"], text="the dog bites")
    book.say(noted, void, m.note(noted["id"], text="A Dog in the yard, 100% wet"), wrong, m.void(wrong["id"]))
    assert found(book, notes="yard dog") == ["noted"]
    assert found(book, notes="dog bites") == []
    assert found(book, notes="100%") == ["noted"]
    assert found(book, notes="dog", area=m.read_id(book.other_area)) == []


def test_the_scope_holds_however_one_asks(book):
    there = Scope(areas=frozenset({m.read_id(book.other_area)}))
    assert found(book, scope=there) == ["elsewhere"]
    assert found(book, scope=there, method="bolt", by="ended") == []
    assert found(book, scope=there, number="ES") == []


def test_counting_takes_one_statement_whatever_there_is(book):
    counted = []
    for _turn in range(2):
        with book.store.reading() as tx, run(book.store) as seen:
            how_many_leaks(EVERYTHING, tx, where=Wanted(method="bolt", by="ended"))
        counted.append(len(seen))
        book.say(*(m.leak(book) for _ in range(20)))
    assert counted == [1, 1]
