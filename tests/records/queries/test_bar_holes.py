"""Bar holes keep their numbers, and each comes with what was read there last."""

from typing import Any

import pytest

from repairlog.access import EVERYTHING, Scope
from repairlog.entries.ids import read_id
from repairlog.records.queries.bar_holes import HoleRow, LastRead, bar_holes_of
from repairlog.records.store import Store
from tests.makers import book as m


def holes(book: m.Book, leak: str, scope: Scope = EVERYTHING) -> list[HoleRow]:
    with book.store.reading() as tx:
        return bar_holes_of(scope, tx, leak=read_id(leak))


def last(book: m.Book, leak: str) -> list[list[str]]:
    return [[f"{read.on} {read.value}" for read in hole.last] for hole in holes(book, leak)]


def again(leak: str, happened: str, *looked: tuple[str, str], **fields: Any) -> dict[str, Any]:
    """A re-evaluation of holes: each the name of an earlier place and a reading, empty for none."""
    places = [
        {"key": f"p{place}", "kind": "bar_hole", "same_as": name} for place, (name, _) in enumerate(looked, start=1)
    ]
    readings = [
        {"key": f"r{place}", "place": f"p{place}", "value": value}
        for place, (_, value) in enumerate(looked, start=1)
        if value
    ]
    said = {"purpose": "re_evaluation", "happened": happened, "places": places, "readings": readings}
    return m.visit(leak, **said | fields)


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def test_the_holes_of_a_visit_come_numbered_with_their_readings_and_no_other_place(book: m.Book) -> None:
    leak, visit = m.leak(book), m.visit("")
    book.say(leak, visit | {"leak": leak["id"]})
    entry = m.read_id(visit["id"])
    assert holes(book, leak["id"]) == [
        HoleRow(
            name=f"{visit['id']}/p1",
            number=1,
            label="6 ft from wall",
            owner="gas",
            from_building="6 ft",
            last=(LastRead(entry=entry, key="r1", on="2026-03-03", value="0 %LEL", gas="", kind="sustained"),),
        ),
        HoleRow(
            name=f"{visit['id']}/p2",
            number=2,
            label="over the service",
            owner="gas",
            from_building="",
            last=(LastRead(entry=entry, key="r2", on="2026-03-03", value="60 %LEL", gas="", kind="sustained"),),
        ),
    ]


def test_what_was_read_last_follows_the_hole_through_whichever_visit_names_it(book: m.Book) -> None:
    leak, first = m.leak(book), m.visit("")
    second = again(leak["id"], "2026-03-04 08:00", (f"{first['id']}/p2", "40 %LEL"))
    third = again(leak["id"], "2026-03-04 09:00", (f"{second['id']}/p1", "22 %LEL"), (f"{first['id']}/p1", ""))
    book.say(leak, first | {"leak": leak["id"]}, second, third)
    assert last(book, leak["id"]) == [["2026-03-03 0 %LEL"], ["2026-03-04 22 %LEL"]]


def test_last_is_by_when_it_happened_and_not_by_when_it_came(book: m.Book) -> None:
    leak, first = m.leak(book), m.visit("")
    late = again(leak["id"], "2026-03-04", (f"{first['id']}/p1", "9 %LEL"))
    early = again(leak["id"], "2026-03-04 23:00", (f"{first['id']}/p1", "4 %LEL"))
    book.say(leak, first | {"leak": leak["id"]}, late)
    book.say(early)
    assert last(book, leak["id"])[0] == ["2026-03-04 9 %LEL"]


def test_a_visit_made_void_takes_its_readings_along(book: m.Book) -> None:
    leak, first = m.leak(book), m.visit("")
    second = again(leak["id"], "2026-03-04", (f"{first['id']}/p1", "9 %LEL"))
    book.say(leak, first | {"leak": leak["id"]}, second)
    book.say(m.void(second["id"]))
    assert last(book, leak["id"])[0] == ["2026-03-03 0 %LEL"]


def test_a_hole_whose_first_visit_is_void_is_followed_through_those_that_named_it(book: m.Book) -> None:
    leak, first = m.leak(book), m.visit("")
    looked = [again(leak["id"], f"2026-03-04 0{hour}:00", (f"{first['id']}/p2", f"{hour} %LEL")) for hour in (8, 9)]
    book.say(leak, first | {"leak": leak["id"]}, *looked)
    book.say(m.void(first["id"]))
    assert last(book, leak["id"]) == [["2026-03-04 9 %LEL"]]


def test_both_readings_of_one_visit_come_sustained_and_peak(book: m.Book) -> None:
    leak, first = m.leak(book), m.visit("")
    more = [*first["readings"], {"key": "r10", "place": "p1", "value": "3 %LEL", "kind": "peak"}]
    book.say(leak, first | {"leak": leak["id"], "readings": more})
    assert last(book, leak["id"])[0] == ["2026-03-03 0 %LEL", "2026-03-03 3 %LEL"]


def test_what_is_read_at_another_leak_under_the_name_of_a_hole_of_this_one_is_not_read_at_it(book: m.Book) -> None:
    leak, other, first = m.leak(book), m.leak(book), m.visit("")
    book.say(leak, other, first | {"leak": leak["id"]})
    before = last(book, leak["id"])
    book.say(again(other["id"], "2026-03-05", (f"{first['id']}/p1", "9 %LEL")))
    assert last(book, leak["id"]) == before


def test_the_holes_of_a_leak_outside_the_scope_are_not_told(book: m.Book) -> None:
    leak = m.leak(book)
    book.say(leak, m.visit(leak["id"]))
    seen = [len(holes(book, leak["id"], Scope(areas=frozenset([read_id(area)])))) for area in _areas(book)]
    assert seen == [2, 0]


def _areas(book: m.Book) -> tuple[str, str]:
    return (book.area, book.other_area)


def test_the_holes_come_by_their_numbers_in_whichever_order_the_visits_came_in(book: m.Book) -> None:
    leak = m.leak(book)
    later, earlier = (m.visit(leak["id"], happened=on) for on in ("2026-03-04", "2026-03-03"))
    book.say(leak, later)
    book.say(earlier)
    names = [f"{visit['id']}/{key}" for visit in (earlier, later) for key in ("p1", "p2")]
    assert [(hole.number, hole.name) for hole in holes(book, leak["id"])] == list(enumerate(names, start=1))
