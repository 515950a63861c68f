"""What is owed as a list: what is late first, then by day; filtered, a page at a time, within the asker's scope."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import select

from repairlog.access import EVERYTHING, Scope
from repairlog.records.queries.due import WantedDue, due, how_many_due
from repairlog.records.queries.streets import streets_named
from repairlog.records.tables.due import DUE_ITEM, DUE_MISSING
from tests.makers import book as m

ON, AT = date(2027, 6, 4), datetime(2027, 6, 4, 12, tzinfo=UTC)
"""The day after the repairs of leaks of 3 March 2026 were to be done."""


@pytest.fixture
def two_areas(sqlite_store):
    """Three leaks of grade 2 in one area, the rule of repair confirmed there; one in the other, where it is not."""
    book = m.opened(sqlite_store)
    here = [m.leak(book, street=street) for street in ("Quarry Lane", "Mill Lane", "Quarry Lane")]
    there = m.leak(book, area=book.other_area)
    book.say(m.adopted(book.area), m.confirmed(book.area), m.adopted(book.other_area))
    book.say(*here, there, *[m.grade(each["id"]) for each in (*here, there)])
    book.say(m.visit(here[0]["id"], happened="2026-03-04 09:00"))
    return book, [each["id"] for each in here], there["id"]


def asked(book, *, scope=EVERYTHING, on=ON, at=AT, after=None, most=50, **owing):
    with book.store.reading() as tx:
        return due(scope, tx, on=on, at=at, owing=WantedDue(**owing), after=after, most=most)


def short(rows):
    return [(str(row.leak), row.task, str(row.due_on), row.firm, row.late) for row in rows]


def test_what_is_late_comes_first_then_all_by_day_and_what_is_only_proposed_is_never_late(two_areas):
    book, (first, second, third), there = two_areas
    rows = asked(book)
    late = [("re_evaluate", "2026-09-03", True), ("re_evaluate", "2026-09-04", True), ("repair", "2027-06-03", True)]
    expected = {
        (first, *late[1]),
        (second, *late[0]),
        (third, *late[0]),
        (there, *late[0]),
        (first, *late[2]),
        (second, *late[2]),
        (third, *late[2]),
    }
    assert {row[:4] for row in short(rows) if row[4]} == expected
    assert short(rows)[-1] == (there, "repair", "2027-06-03", False, False)
    assert [row.late for row in rows] == [True] * 7 + [False]
    assert [row.due_on for row in rows[:7]] == sorted(row.due_on for row in rows[:7])


@pytest.mark.parametrize(("on", "late"), [(date(2027, 6, 2), 0), (date(2027, 6, 3), 0), (date(2027, 6, 4), 3)])
def test_the_last_day_is_in_time(two_areas, on, late):
    book, _here, _there = two_areas
    assert sum(row.late for row in asked(book, on=on, task="repair")) == late


def test_it_says_what_asks_for_it_and_of_which_leak(two_areas):
    book, (first, *_), _there = two_areas
    (row,) = asked(book, task="repair", number="ES-26-0001")
    assert (row.leak, row.rule, row.clause, row.mark) == (m.read_id(first), "repair-2", "2.2", "memory")
    assert (row.counted_from, row.counted_on, row.governed_by) == ("reported", date(2026, 3, 3), "15 months")
    assert (row.target_on, row.until, row.grade, row.rank) == (date(2026, 9, 3), "repaired", "2", 2)
    assert (row.number, row.house_number, row.street, row.status) == ("ES-26-0001", "14", "Quarry Lane", "open")


def test_filters_and_pages_give_the_same_rows_in_the_same_order(two_areas):
    book, here, there = two_areas
    every = asked(book)
    assert short(asked(book, area=m.read_id(book.other_area))) == [row for row in short(every) if row[0] == there]
    assert short(asked(book, task="repair")) == [row for row in short(every) if row[1] == "repair"]
    assert asked(book, grade="1") == []
    assert short(asked(book, late=True)) == [row for row in short(every) if row[4]]
    assert short(asked(book, until_on=date(2026, 9, 3))) == [row for row in short(every) if row[2] == "2026-09-03"]
    assert {row[0] for row in short(asked(book, number="ES"))} == set(here)
    with book.store.reading() as tx:
        lane = tuple(streets_named(EVERYTHING, tx, part="quarry"))
        assert how_many_due(EVERYTHING, tx, on=ON, at=AT, owing=WantedDue(streets=lane)) == 6
        assert how_many_due(EVERYTHING, tx, on=ON, at=AT, owing=WantedDue(streets=())) == 0
    paged, after = [], None
    while page := asked(book, after=after, most=3):
        paged += page
        after = page[-1].edge
    assert paged == every


def test_who_sees_one_area_alone_is_told_of_no_other(two_areas):
    book, _here, there = two_areas
    scope = Scope(areas=frozenset([m.read_id(book.other_area)]))
    assert {row[0] for row in short(asked(book, scope=scope))} == {there}


def test_what_is_owed_in_hours_is_late_from_its_moment_on(sqlite_store):
    """Great Britain: 12 hours, as the shipped rulebook has them; confirmed, so that they are a limit."""
    book = m.opened(sqlite_store)
    gb = sqlite_store.rulebooks.offered()["gb"]
    rule = next(each for each in gb.dues if "hours" in each.within)
    said = {"rulebook": "gb", "digest": gb.digest}
    book.say(m.adopted(book.area, **said), m.confirmed(book.area, rule.id, **said))
    leak = m.leak(book)
    book.say(leak, m.grade(leak["id"], grade=gb.grades[0].code, rank="1"))
    first = min((row for row in asked(book, on=date(2026, 3, 3)) if row.due_at), key=lambda row: row.due_at)
    for seconds, late in ((-1, False), (0, False), (1, True)):
        at = first.due_at + timedelta(seconds=seconds)
        (row,) = [each for each in asked(book, on=first.due_on, at=at) if each.edge.key == first.edge.key]
        assert row.late is late


def test_another_rulebook_that_holds_from_a_day_on_is_what_is_owed_from_that_day_on(two_areas):
    book, (first, *_), _there = two_areas
    proposal = {"rulebook": "saltmarsh-proposal", "digest": m.PROPOSAL, "although_proposed": "yes"}
    book.say(m.adopted(book.area, from_on="2026-04-01", **proposal))
    for on, day in ((date(2026, 3, 31), "2027-06-03"), (date(2026, 4, 1), "2026-06-03")):
        rows = [row for row in asked(book, on=on, task="repair") if str(row.leak) == first]
        assert [str(row.due_on) for row in rows] == [day]


def test_of_a_leak_everything_is_told_settled_or_not_and_what_has_no_day(two_areas):
    book, (first, *_), _there = two_areas
    book.say(m.grade(first, happened="2026-03-05", grade="odd"))
    with book.store.reading() as tx:
        of_first = DUE_ITEM.c.leak_id == m.read_id(first)
        rows = tx.connection.execute(select(DUE_ITEM).where(of_first).order_by(DUE_ITEM.c.due_on, DUE_ITEM.c.task))
        rows = rows.all()
        missing = tx.connection.execute(select(DUE_MISSING).where(DUE_MISSING.c.subject_id == m.read_id(first))).all()
    assert [(row.task, str(row.settled_on), row.settled_by) for row in rows] == [
        ("re_evaluate", "2026-03-04", "looked_at"),
        ("re_evaluate", "2026-03-05", "graded_anew"),
        ("repair", "2026-03-05", "graded_anew"),
    ]
    assert [(each.why, each.grade) for each in missing] == [("grade_not_in_rulebook", "odd")]
