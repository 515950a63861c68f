"""The list of leaks: what a filter lets through, in which order, and where a page ends."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any
from uuid import UUID

import pytest

from repairlog.access import EVERYTHING, NOTHING, Scope
from repairlog.records.queries.leaks import Edge, LeakRow, Wanted, leak_with_id, leaks
from repairlog.records.queries.streets import streets_named
from repairlog.records.store import Store
from tests.makers import book as m


@pytest.fixture
def book(store: Store) -> m.Book:
    return m.opened(store)


def asked(book: m.Book, scope: Scope = EVERYTHING, *, beyond: Edge | None = None, most: int = 50, **where: Any):
    with book.store.reading() as tx:
        return leaks(scope, tx, where=Wanted(**where), beyond=beyond, most=most)


def streets(book: m.Book, part: str) -> tuple[UUID, ...]:
    with book.store.reading() as tx:
        return tuple(streets_named(EVERYTHING, tx, part=part))


def said(book: m.Book, *opened: dict[str, Any]) -> list[UUID]:
    """Post these leaks; their ids."""
    book.say(*opened)
    return [m.read_id(each["id"]) for each in opened]


def ids(rows: Sequence[LeakRow]) -> list[UUID]:
    return [row.id for row in rows]


def test_a_row_tells_what_a_list_shows_of_a_leak(book):
    leak = m.leak(book, cross_street="Mill Lane", location="by the gate")
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "off the truck"}])
    book.say(leak, m.grade(leak["id"], grade="1"), m.grade(leak["id"], happened="2026-03-04"), attempt)
    book.say(m.ending(leak["id"], [attempt["id"]]))
    assert asked(book) == [
        LeakRow(
            id=m.read_id(leak["id"]),
            number="ES-26-0001",
            area=m.read_id(book.area),
            grade="2",
            rank=2,
            house_number="14",
            street="Quarry Lane",
            cross_street="Mill Lane",
            town="Harrowsedge",
            location="by the gate",
            status="ended",
            reported_on="2026-03-03",
            reported_known="",
            ended_how="repaired",
            ended_on="2026-03-05",
            attempts=1,
            gaps=3,  # a lower grade that nobody looked over, a lot not on the books, a repair that nobody accepted
        )
    ]


def test_a_leak_of_which_little_is_known_is_told_with_empty_places(book):
    leak = {"kind": "leak_opened", "id": m.new_id(), "area": book.area, "happened": "2016-12-31"}
    book.say(leak | {"happened_known": "on_or_before"})
    (row,) = asked(book)
    assert (row.grade, row.rank, row.house_number, row.street, row.cross_street) == ("", None, "", "", "")
    assert (row.town, row.location, row.ended_how, row.ended_on) == ("", "", "", "")
    assert (row.status, row.reported_known, row.attempts, row.gaps) == ("open", "on_or_before", 0, 0)


def test_the_newest_report_comes_first_and_pages_meet_without_a_gap_or_a_double(book):
    days = ["2026-03-01", "2026-03-02", "2026-03-02", "2026-03-03", "2026-03-04"]
    opened = said(book, *(m.leak(book, happened=day) for day in days))
    newest_first = [each for _day, each in sorted(zip(days, opened, strict=True), reverse=True)]
    rows = asked(book)
    assert ids(rows) == newest_first
    pages, beyond = [], None
    for _ in range(3):
        pages.append(asked(book, beyond=beyond, most=2))
        beyond = Edge(date.fromisoformat(pages[-1][-1].reported_on), pages[-1][-1].id)
    assert [ids(page) for page in pages] == [newest_first[:2], newest_first[2:4], newest_first[4:]]
    assert asked(book, beyond=beyond, most=2) == []
    back = Edge(date.fromisoformat(rows[3].reported_on), rows[3].id, "newer")
    assert ids(asked(book, beyond=back, most=2)) == newest_first[1:3]
    assert ids(asked(book, beyond=back)) == newest_first[:3]


def test_each_filter_lets_through_what_fits_it_and_several_together_what_fits_all(book):
    open_here, ended_here, elsewhere = said(
        book,
        m.leak(book, happened="2026-03-01"),
        m.leak(book, happened="2026-03-02", street="Mill Lane"),
        m.leak(book, happened="2026-03-03", area=book.other_area, town="Millbeck"),
    )
    book.say(m.grade(str(open_here), grade="1"), m.grade(str(elsewhere), grade="2A", rank=2))
    book.say(m.ending(str(ended_here), how="no_reading"))
    assert ids(asked(book, area=m.read_id(book.area))) == [ended_here, open_here]
    assert ids(asked(book, status="open")) == [elsewhere, open_here]
    assert ids(asked(book, grade="2A")) == [elsewhere]
    assert ids(asked(book, from_on=date(2026, 3, 2))) == [elsewhere, ended_here]
    assert ids(asked(book, until_on=date(2026, 3, 2))) == [ended_here, open_here]
    assert ids(asked(book, streets=streets(book, "mill"))) == [elsewhere, ended_here]
    assert ids(asked(book, streets=streets(book, "mill"), status="open")) == [elsewhere]
    assert ids(asked(book, streets=(), status="open")) == []
    together = {"area": m.read_id(book.area), "status": "open", "grade": "1", "number": "ES"}
    assert ids(asked(book, **together, from_on=date(2026, 3, 1), until_on=date(2026, 3, 1))) == [open_here]


def test_nothing_outside_the_scope_is_there_whatever_is_asked_for(book):
    here, there = said(book, m.leak(book), m.leak(book, area=book.other_area))
    mine, foreign = Scope(areas=frozenset({m.read_id(book.area)})), m.read_id(book.other_area)
    both = Scope(areas=frozenset({m.read_id(book.area), foreign}))
    assert ids(asked(book, mine)) == [here]
    assert ids(asked(book, mine, area=foreign)) == []
    assert ids(asked(book, mine, number="HF")) == []
    assert ids(asked(book, mine, streets=streets(book, "quarry"))) == [here]
    assert set(ids(asked(book, both))) == {here, there}
    assert ids(asked(book, NOTHING, streets=streets(book, "quarry"))) == []
    with book.store.reading() as tx:
        assert leak_with_id(mine, tx, leak=there) is None
        assert leak_with_id(both, tx, leak=there).number == "HF-26-0001"
        assert leak_with_id(NOTHING, tx, leak=there) is None


def test_a_leak_is_found_by_its_number_by_how_it_begins_and_by_what_others_call_it(book):
    numbers = [{"key": "n1", "what": "work order", "number": "W_4471"}]
    first, second, listed = said(
        book,
        m.leak(book, happened="2026-03-01"),
        m.leak(book, happened="2026-03-02", outside_numbers=numbers),
        m.leak(book, happened="2016-12-31", number="1987%114"),
    )
    assert ids(asked(book, number="ES-26-0002")) == [second]
    assert ids(asked(book, number="es-26-")) == [second, first]
    assert ids(asked(book, number="W_4471")) == [second]
    assert ids(asked(book, number="W_447")) == []
    assert ids(asked(book, number="1987%")) == [listed]
    assert ids(asked(book, number="19_7")) == ids(asked(book, number="%")) == []
    assert ids(asked(book, number="26-0002")) == []


def test_more_leaks_than_are_put_in_order_at_once_come_in_the_same_order(book, monkeypatch):
    opened = said(book, *(m.leak(book, happened=f"2026-03-0{day}") for day in (1, 3, 2)))
    other = said(book, m.leak(book, area=book.other_area, happened="2026-03-04"))
    monkeypatch.setattr("repairlog.records.queries.leaks.FEW", 2)
    assert ids(asked(book, number="ES")) == [opened[1], opened[2], opened[0]]
    assert ids(asked(book, number="HF")) == other


def test_many_areas_or_streets_give_the_same_leaks_as_few(book, monkeypatch):
    opened = said(
        book, m.leak(book, happened="2026-03-01"), m.leak(book, happened="2026-03-02", area=book.other_area, street="X")
    )
    both = Scope(areas=frozenset({m.read_id(book.area), m.read_id(book.other_area)}))
    apart = [ids(asked(book, both)), ids(asked(book, both, streets=streets(book, "harrowsedge")))]
    monkeypatch.setattr("repairlog.records.queries.leaks.WALKED_APART", 1)
    assert [ids(asked(book, both)), ids(asked(book, both, streets=streets(book, "harrowsedge")))] == apart
    assert apart == [opened[::-1], opened[::-1]]


def test_a_part_of_a_street_s_name_is_looked_up_word_by_word_in_name_and_town(book):
    said(book, m.leak(book), m.leak(book, street="Quarry  ROW"), m.leak(book, street="Mill Lane", town="Quarry End"))
    assert len(streets(book, "quarry")) == 3
    assert len(streets(book, "QUARRY, harrow")) == 2
    assert len(streets(book, "lane harrowsedge")) == 1
    assert streets(book, "%") == streets(book, "  ") == streets(book, "nowhere") == ()
