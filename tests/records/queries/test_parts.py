"""Parts of areas: an inspector's period, and a company's own work; at each edge of each."""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest

from repairlog.access import EVERYTHING, Part, Scope
from repairlog.records.queries.calls import WantedCalls, call_with_id, calls, calls_of_leak, watches
from repairlog.records.queries.crews import crews_in
from repairlog.records.queries.gaps import WantedGaps, gaps, gaps_by_code
from repairlog.records.queries.leaks import Wanted, how_many_leaks, leak_with_id, leaks
from repairlog.records.queries.lots import lots_of
from repairlog.records.queries.moved_away import last_moved_away, moved_away
from repairlog.records.queries.named import named
from repairlog.records.queries.people import people_named, people_of
from repairlog.records.queries.settings import areas, subjects
from repairlog.records.queries.work import work_of
from repairlog.records.store import Store
from repairlog.records.story import story_of
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d

DALE = "Dale Pipe Co"


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def period(book: m.Book, from_on: str, until_on: str, *, area: str | None = None) -> Scope:
    part = Part(area=m.read_id(area or book.area), from_on=from_on, until_on=until_on)
    return Scope(parts=frozenset({part}))


def of_dale(company: str = DALE) -> Scope:
    return Scope(parts=frozenset({Part(area=None, company=company)}))


def numbers(book: m.Book, scope: Scope, **where: Any) -> list[str]:
    with book.store.reading() as tx:
        rows = leaks(scope, tx, where=Wanted(**where), beyond=None, most=50)
        assert how_many_leaks(scope, tx, where=Wanted(**where)) == len(rows)
    return [row.house_number for row in rows]


def sees(book: m.Book, scope: Scope, leak: dict[str, Any]) -> bool:
    """Whether that leak is seen, by the list, by its id, by its number and as a story alike."""
    id = m.read_id(leak["id"])
    with book.store.reading() as tx:
        row = leak_with_id(EVERYTHING, tx, leak=id)
        assert row
        ways = {
            leak_with_id(scope, tx, leak=id) is not None,
            story_of(scope, tx, leak=id) is not None,
            id in {each.id for each in leaks(scope, tx, where=Wanted(), beyond=None, most=50)},
            id in {each.id for each in leaks(scope, tx, where=Wanted(number=row.number), beyond=None, most=50)},
            bool(subjects(scope, tx, ids=[id])),
            id in named(scope, tx, ids=[id]),
        }
    assert len(ways) == 1
    return ways.pop()


def ended(book: m.Book, on: str) -> dict[str, Any]:
    leak = m.leak(book, happened="2026-02-10 08:00")
    book.say(leak, m.ending(leak["id"], how="no_reading", reason="nothing any more", happened=f"{on} 12:00"))
    return leak


@pytest.mark.parametrize(
    ("first", "last", "seen"),
    [
        ("2026-02-01", "2026-02-09", False),
        ("2026-02-01", "2026-02-10", True),
        ("2026-02-01", "2026-02-11", True),
        ("2026-02-19", "2026-02-28", True),
        ("2026-02-20", "2026-02-28", True),
        ("2026-02-21", "2026-02-28", False),
    ],
    ids=["ends the day before", "ends that day", "ends the day after", "begins before", "begins that day", "after"],
)
def test_a_leak_is_seen_that_was_open_on_some_day_of_the_period(book, first, last, seen):
    leak = ended(book, "2026-02-20")
    assert sees(book, period(book, first, last), leak) is seen


def test_a_period_shows_open_leaks_and_those_of_its_own_area_alone(book):
    here, elsewhere = m.leak(book, house_number="1"), m.leak(book, house_number="2", area=book.other_area)
    book.say(here, elsewhere)
    days = ("2026-03-01", "2026-03-31")
    assert (sees(book, period(book, *days), here), sees(book, period(book, *days), elsewhere)) == (True, False)
    every = Scope(parts=frozenset({Part(area=None, from_on=days[0], until_on=days[1])}))
    assert sorted(numbers(book, every)) == ["1", "2"]
    assert numbers(book, period(book, *days), area=m.read_id(book.other_area)) == []


def test_an_ending_that_a_reopening_undid_is_none(book):
    leak = ended(book, "2026-02-20")
    book.say(m.reopened(leak["id"], happened="2026-03-02 08:00"))
    assert sees(book, period(book, "2026-02-25", "2026-02-27"), leak)


def test_a_leak_opened_in_error_is_seen_where_its_report_lies_in_the_period(book):
    leak = m.leak(book, happened="2026-02-10 08:00")
    book.say(leak)
    book.say(m.void(leak["id"]))
    days = [("2026-02-01", "2026-02-09"), ("2026-02-01", "2026-02-10"), ("2026-02-11", "2026-02-28")]
    assert [sees(book, period(book, *each), leak) for each in days] == [False, True, False]


def test_whole_areas_and_parts_are_seen_together(book):
    whole, part = ended(book, "2026-02-20"), m.leak(book, area=book.other_area, happened="2026-02-10 08:00")
    late = m.leak(book, area=book.other_area, happened="2026-03-04 08:00")
    book.say(part, late)
    both = Scope(
        areas=frozenset({m.read_id(book.area)}),
        parts=period(book, "2026-02-01", "2026-02-28", area=book.other_area).parts,
    )
    assert [sees(book, both, each) for each in (whole, part, late)] == [True, True, False]


def test_of_a_period_the_calls_digs_and_gaps_of_its_leaks_are_seen_and_nothing_else(book):
    call, other_call = c.call(book, happened="2026-03-03 07:40"), c.call(book, happened="2026-03-03 07:41")
    leak = m.leak(book, from_call=call["id"])
    later = m.leak(book, happened="2026-04-02 08:00")
    book.say(call, other_call)
    moments = m.Moments(received=m.RECEIVED.replace(month=5))
    lot = {"key": "m1", "named": "off the truck"}
    tried = [
        m.attempt(each["id"], materials=[lot], happened=f"2026-04-0{3 + at} 10:00")
        for at, each in enumerate((leak, later))
    ]
    dig, other_dig = d.dig(book, [leak["id"]]), d.dig(book, [later["id"]], happened="2026-04-03 09:00")
    book.say(leak, later, *tried, dig, other_dig, moments=moments)
    scope = period(book, "2026-03-01", "2026-03-31")
    with book.store.reading() as tx:
        seen = {
            "calls": [row.id for row in calls(scope, tx, wanted=WantedCalls(), beyond=None, most=9)],
            "of leak": [row.id for row in calls_of_leak(scope, tx, leak=m.read_id(leak["id"]))],
            "one": call_with_id(scope, tx, call=m.read_id(other_call["id"])),
            "subjects": {
                row.id for row in subjects(scope, tx, ids=_ids(call, other_call, dig, other_dig, leak, later))
            },
            "digs": [each.opened.id for each in _story(scope, tx, leak).digs],
            "gaps": {row.leak for row in gaps(scope, tx, asked=WantedGaps(), after=None, most=99)},
            "watches": watches(scope, tx),
            "lots": lots_of(scope, tx, area=m.read_id(book.area)),
            "people": people_of(scope, tx, area=m.read_id(book.area)),
            "crews": crews_in(scope, tx),
            "areas": [area.code for area in areas(scope, tx)],
        }
        counted = gaps_by_code(scope, tx, asked=WantedGaps())
        assert sum(counted.values()) == len(gaps(scope, tx, asked=WantedGaps(), after=None, most=99)) > 0
    assert seen == {
        "calls": _ids(call),
        "of leak": _ids(call),
        "one": None,
        "subjects": {*_ids(call, dig, leak)},
        "digs": _ids(dig),
        "gaps": {*_ids(leak)},
        "watches": [],
        "lots": [],
        "people": [],
        "crews": [],
        "areas": ["ES"],
    }


@pytest.fixture
def hired(book: m.Book) -> tuple[str, str]:
    """A person in a crew that was Dale's from 1 to 10 March 2026; the ids of both."""
    person = m.new_id()
    crew = m.crew(book, name="Truck 9", members=[{"key": "m1", "person": person}])
    book.say({"kind": "person_added", "id": person, "name": "L. Quist", "happened": "2025-01-02"})
    book.say(crew)
    changes = [("2026-03-01", DALE), ("2026-03-11", "Weir Works")]
    changed = [m.crew_changed(crew["id"], name="Truck 9", happened=on, company=company) for on, company in changes]
    book.say(*changed, moments=m.Moments(received=m.RECEIVED.replace(day=20)))
    return person, crew["id"]


@pytest.mark.parametrize(
    ("on", "seen"),
    [
        ("2026-02-28", False),
        ("2026-03-01", True),
        ("2026-03-02", True),
        ("2026-03-09", True),
        ("2026-03-10", True),
        ("2026-03-11", False),
    ],
)
def test_a_companys_work_is_what_its_crews_did_and_were_given_while_they_were_its_own(book, hired, on, seen):
    person, crew = hired
    moments = m.Moments(received=m.RECEIVED.replace(day=20))
    did, given, neither = (m.leak(book, happened="2026-02-20 08:00") for _ in range(3))
    book.say(did, given, neither)
    by_them = [{"key": "d1", "person": person}]
    book.say(m.visit(did["id"], happened=f"{on} 08:00", did=by_them), m.note(neither["id"]), moments=moments)
    book.say(m.given(given["id"], happened=f"{on} 08:00", crew=crew, named=""), moments=moments)
    assert [sees(book, of_dale(), each) for each in (did, given, neither)] == [seen, seen, False]


def test_who_is_of_a_company_by_themselves_or_by_a_role_works_for_it(book):
    own, held = m.new_id(), m.new_id()
    add = {"kind": "person_added", "happened": "2025-01-02"}
    book.say(add | {"id": own, "name": "S. Brand", "company": DALE}, add | {"id": held, "name": "T. Cole"})
    book.say(m.role_given(held, company="dale pipe co"))
    opened = [m.leak(book, did=[{"key": "d1", "person": each}]) for each in (own, held, str(book.crew.person))]
    book.say(*opened)
    assert [sees(book, of_dale(), each) for each in opened] == [True, True, False]
    with book.store.reading() as tx:
        area = m.read_id(book.area)
        assert [each.name for each in people_of(of_dale(), tx, area=area)] == ["S. Brand", "T. Cole"]
        assert [each.name for each in people_named(of_dale(), tx, named="m. aldous")] == []
        assert [each.lot_number for each in lots_of(of_dale(), tx, area=area)] == ["W-0118"]
        assert (
            lots_of(Scope(parts=frozenset({Part(area=m.read_id(book.other_area), company=DALE)})), tx, area=area) == []
        )


def test_work_that_is_void_makes_no_leak_a_companys(book, hired):
    person, _crew = hired
    leak = m.leak(book)
    visit = m.visit(leak["id"], did=[{"key": "d1", "person": person}])
    book.say(leak, visit)
    assert sees(book, of_dale(), leak)
    book.say(m.void(visit["id"]))
    assert not sees(book, of_dale(), leak)


def test_a_leak_is_a_companys_by_its_sources_its_digs_and_the_call_it_went_to(book, hired):
    person, crew = hired
    by_them = [{"key": "d1", "person": person}]
    call, other_call = c.call(book), c.call(book)
    by_source, by_dig, by_call, other = (m.leak(book) for _ in range(4))
    source = m.source(by_source["id"])
    book.say(by_source, source, by_dig, by_call, other, call, other_call)
    book.say(m.note(source["id"], did=by_them), d.dig(book, [by_dig["id"]], did=by_them))
    book.say(c.sent(call["id"], crew=crew, happened="2026-03-03 07:50"))
    book.say(c.outcome(call["id"], outcome="operators_leak", found_leak=by_call["id"]))
    assert [sees(book, of_dale(), each) for each in (by_source, by_dig, by_call, other)] == [True, True, True, False]
    with book.store.reading() as tx:
        rows = calls(of_dale(), tx, wanted=WantedCalls(), beyond=None, most=9)
        assert [row.id for row in rows] == _ids(call)
        assert [each.name for each in crews_in(of_dale(), tx)] == ["Truck 9"]
        assert [row.leak for row in work_of(of_dale(), tx, leak=m.read_id(other["id"]))] == []


def _ids(*entries: dict[str, Any]) -> list[UUID]:
    return [m.read_id(each["id"]) for each in entries]


def _story(scope: Scope, tx: Any, leak: dict[str, Any]) -> Any:
    found = story_of(scope, tx, leak=m.read_id(leak["id"]))
    assert found
    return found


def went(book: m.Book, scope: Scope, *ids: str) -> dict[str, tuple[str, str, bool]]:
    """By subject, where it went for a reader of that scope, why, and whether they see it still; list and page alike."""
    with book.store.reading() as tx:
        listed = {row.subject: row for row in moved_away(scope, tx, after=None, most=9)}
        each = {id: last_moved_away(scope, tx, id=m.read_id(id)) for id in ids}
    assert listed == {row.subject: row for row in each.values() if row}
    return {id: (row.to_area, row.reason, row.seen) for id, row in each.items() if row}


@pytest.mark.parametrize(("first", "told"), [("2026-03-04", True), ("2026-03-05", True), ("2026-03-06", False)])
def test_an_inspector_is_told_where_a_leak_went_that_left_on_a_day_of_the_period_or_later(book, first, told):
    call = c.call(book, happened="2026-03-03 07:40")
    leak = m.leak(book, from_call=call["id"])
    dig = d.dig(book, [leak["id"]])
    moved = [m.moved(each["id"], book.other_area) for each in (call, leak, dig)]
    book.say(call, leak, dig, *moved)
    found = went(book, period(book, first, "2026-03-31"), call["id"], leak["id"], dig["id"])
    assert found == ({each["id"]: ("Highfold", "", False) for each in (call, leak, dig)} if told else {})
    assert went(book, period(book, "2026-03-01", "2026-03-02"), leak["id"]) == {}  # reported after it
    assert went(book, period(book, first, "2026-03-31", area=book.other_area), leak["id"]) == {}


def test_a_company_is_told_where_its_own_work_went_and_not_where_others_did(book, hired):
    _person, crew = hired
    given, other = m.leak(book), m.leak(book)
    book.say(given, other, m.given(given["id"], crew=crew))
    book.say(*(m.moved(each["id"], book.other_area) for each in (given, other)))
    here = Scope(parts=frozenset({Part(area=m.read_id(book.area), company=DALE)}))
    assert went(book, here, given["id"], other["id"]) == {given["id"]: ("Highfold", "", False)}
    why = "it hangs on their main"
    assert went(book, of_dale(), given["id"], other["id"]) == {given["id"]: ("Highfold", why, True)}
    assert went(book, of_dale("Weir Works"), given["id"], other["id"]) == {}
