"""Calls through the door: their numbers, the streets they share with leaks, a call and the leak that it opens."""

from __future__ import annotations

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.rebuild import check
from repairlog.records.tables import facts, worked
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.copies import copy_of, rows


def stands(book, call):
    (row,) = [row for row in rows(book.store, worked.CALL) if row["id"] == read_id(call["id"])]
    return row


def test_calls_count_by_themselves_with_a_letter_before_the_year(open_book):
    call = [c.call(open_book), m.leak(open_book), c.call(open_book), c.call(open_book, area=open_book.other_area)]
    call.append(c.call(open_book, happened="2025-12-31 23:59"))
    numbers = [receipt.number for receipt in open_book.say(*call)]
    assert numbers == ["ES-C26-0001", "ES-26-0001", "ES-C26-0002", "HF-C26-0001", "ES-C25-0001"]
    assert [r["last"] for r in rows(open_book.store, worked.AREA_COUNTER)] == [1]
    assert sorted(r["last"] for r in rows(open_book.store, worked.CALL_COUNTER)) == [1, 1, 2]
    assert check(open_book.store).differences == ()


def test_a_receipt_of_a_step_bears_the_number_of_its_call_and_what_is_raised(open_book):
    call = c.call(open_book)
    open_book.say(call)
    (receipt,) = open_book.say(c.outcome(call["id"], outcome="operators_leak"))
    assert (receipt.number, receipt.raised) == ("ES-C26-0001", ("outcome_names_no_leak",))


def test_a_street_is_there_while_a_call_or_a_leak_names_it(open_book):
    call, leak = c.call(open_book), m.leak(open_book)
    open_book.say(call, leak)
    (street,) = {row["id"] for row in rows(open_book.store, facts.STREET)}
    assert stands(open_book, call)["street_id"] == street
    open_book.say(m.corrected(leak["id"], ("street", "Mill Lane")))
    assert len(rows(open_book.store, facts.STREET)) == 2
    open_book.say(m.corrected(call["id"], ("street", "Mill Lane")))
    assert [row["name"] for row in rows(open_book.store, facts.STREET)] == ["MILL LANE"]
    assert check(open_book.store).differences == ()


def test_a_call_opens_a_leak_in_one_call_to_the_door(open_book):
    call = c.call(open_book)
    open_book.say(call, c.sent(call["id"]), c.on_site(call["id"]))
    leak = m.leak(open_book, from_call=call["id"])
    end = c.outcome(call["id"], outcome="operators_leak", found_leak=leak["id"])
    assert [receipt.number for receipt in open_book.say(leak, end)] == ["ES-26-0001", "ES-C26-0001"]
    found = stands(open_book, call)
    assert (found["status"], found["outcome"], found["leak_id"]) == ("ended", "operators_leak", read_id(leak["id"]))
    assert check(open_book.store).differences == ()


def test_the_steps_of_a_call_in_any_order_of_arrival_leave_the_same_rows(sqlite_store):
    """Each step a call of its own, backwards: what is worked out is the same as forwards, but for nothing."""
    book = m.opened(sqlite_store)
    calls = [c.call(book), c.call(book)]
    crew = c.crew(book)
    book.say(*calls, crew)
    steps = [
        [c.sent(id, crew=crew["id"]), c.on_way(id), c.on_site(id), c.outcome(id), c.reviewed(id)]
        for id in (call["id"] for call in calls)
    ]
    for step in steps[0]:
        book.say(step)
    for step in reversed(steps[1]):
        book.say(step)
    without = ["id", "number"]
    first, second = copy_of(sqlite_store, worked.CALL, without=without)["call"]
    assert first == second
    assert check(sqlite_store).differences == ()


@pytest.mark.parametrize("of", ["call", "leak"])
def test_somebody_is_told_and_it_is_decided_on_any_subject(open_book, of):
    subject = c.call(open_book) if of == "call" else m.leak(open_book)
    open_book.say(subject)
    told = open_book.say(c.told(subject["id"]), c.decided(subject["id"]))
    assert {receipt.number for receipt in told} == {"ES-C26-0001" if of == "call" else "ES-26-0001"}


def test_the_watch_stands_until_the_site_is_left_or_the_leak_ends(open_book):
    leak = m.leak(open_book)
    open_book.say(leak, c.watch(leak["id"], next_reading_by="2026-03-03 15:00"))
    (row,) = rows(open_book.store, worked.WATCH)
    assert (row["named"], row["next_reading_on"].isoformat()) == ("day crew leader", "2026-03-03")
    left = c.moment(leak["id"], moment="left_site", happened="2026-03-03 16:00")
    open_book.say(left)
    assert rows(open_book.store, worked.WATCH) == []
    open_book.say(m.void(left["id"]))
    assert len(rows(open_book.store, worked.WATCH)) == 1
    open_book.say(m.ending(leak["id"], how="no_reading"))
    assert rows(open_book.store, worked.WATCH) == []
