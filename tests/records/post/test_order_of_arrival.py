"""The order of arrival changes nothing but what it must: the same entries posted in any order give the same rows.

What may differ: places in the journal and numbers given to people. What hangs on the order of arrival by decision is
left out of the story: two corrections of one field, two things at one moment, settings that change in between.
"""

from __future__ import annotations

import random
import shutil
from datetime import timedelta
from itertools import count

import pytest

from repairlog.entries.entry import Moments
from repairlog.entries.moments import moment_text
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables import of_kind
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import changed, copy_of
from tests.makers.once import anew
from tests.makers.rulebooks import RULEBOOKS

SEEDS = range(1, 7)
EVENING = Moments(received=book.RECEIVED + timedelta(hours=9))
OF_ARRIVAL = {"journal_index", "leak.number", "leak_opened.number_given"}


def story(open_book):
    """The entries of two leaks and their lot: what happened, put right and voided in every way, each at its moment."""
    one, two = book.leak(open_book), book.leak(open_book, happened="2026-03-03 07:10", street="Mill Lane")
    leak, other = one["id"], two["id"]
    lot = {"kind": "lot_received", "id": book.new_id(), "area": open_book.area, "item": "clamp", "lot_number": "K-7"}
    lot |= {"happened": "2026-02-01", "expires_on": "2026-06-30"}
    tee, valve = book.source(leak), book.source(leak, happened="2026-03-04 09:00", component="valve")
    first = book.visit(leak)
    same_hole = {"key": "p1", "kind": "bar_hole", "same_as": f"{first['id']}/p1"}
    new_hole = {"key": "p2", "kind": "bar_hole", "label": "at the kerb"}
    reading = {"key": "r1", "place": "p1", "value": "5 %LEL"}
    again = book.visit(leak, happened="2026-03-04 08:00", purpose="re_evaluation", places=[same_hole, new_hole])
    again["readings"] = [reading]
    used = [{"key": "m1", "lot": lot["id"]}, {"key": "m2", "lot": open_book.lot}]
    tries = [
        book.attempt(leak, happened="2026-03-04 10:00", source=tee["id"], materials=used, outcome="not_tested"),
        book.attempt(leak, happened="2026-03-05 09:00", source=tee["id"], lasting="temporary"),
        book.attempt(leak, happened="2026-03-05 10:02", source=tee["id"], materials=used[:1]),
        book.attempt(leak, happened="2026-03-05", source=valve["id"]),
        book.attempt(other, happened="2026-03-02 10:00"),
    ]
    tests = [
        book.test_of(leak, tries[0]["id"], happened="2026-03-04 10:30", result="not_tight"),
        book.test_of(leak, tries[2]["id"], happened="2026-03-05 10:20", result="cannot_say"),
        book.test_of(leak, tries[2]["id"], happened="2026-03-05 10:40"),
    ]
    reviews = [
        book.review(leak, tries[2]["id"], happened="2026-03-05 10:50", outcome="returned"),
        book.review(leak, tries[2]["id"], happened="2026-03-05 10:55"),
    ]
    grades = [book.grade(leak), book.grade(leak, happened="2026-03-04 08:30", grade="3"), book.grade(other, grade="9")]
    ends = [
        book.ending(leak, [tries[2]["id"], tries[3]["id"]], happened="2026-03-05 11:00"),
        book.ending(leak, [tries[0]["id"]], happened="2026-03-04 11:00"),
        book.ending(other, how="joined", joined_to=leak, happened="2026-03-05 12:00"),
    ]
    right = [
        book.corrected(tries[1]["id"], ("leak", other), ("source", None)),
        book.corrected(tests[0]["id"], ("happened", "2026-03-04 10:31")),
        book.corrected(lot["id"], ("expires_on", "2026-03-03")),
        book.corrected(one["id"], ("happened", "2026-03-03 07:40"), ("street", "Kiln Lane")),
        book.corrected(first["id"], ("readings.r2.value", "80 %LEL"), ("places.p3", None)),
        book.corrected(tries[2]["id"], ("materials.m1.lot", open_book.lot)),
        book.corrected(valve["id"], ("pressure", "7 in wc")),
    ]
    right.append(book.corrected(right[1]["id"], ("changes.c1.to", "2026-03-04 10:32")))
    voids = [book.void(tests[1]["id"]), book.void(grades[1]["id"]), book.void(right[3]["id"]), book.void(ends[1]["id"])]
    voids += [book.void(voids[3]["id"]), book.void(tries[1]["id"])]
    told = [one, two, lot, tee, valve, first, again, *tries, *tests, *reviews, *grades, *ends, *right, *voids]
    at = [EVENING.received - timedelta(minutes=len(told) - place) for place in range(len(told))]
    return [entry | {"written": moment_text(moment)} for entry, moment in zip(told, at, strict=True)]


def shuffled(entries, *, seed):
    """The entries in another order, each after every entry of the story that it names."""
    chance, left, done = random.Random(seed), list(entries), []
    names = {each["id"]: _named(each, entries) for each in entries}
    while left:
        ready = [each for each in left if names[each["id"]] <= {e["id"] for e in done}]
        chosen = chance.choice(ready)
        left.remove(chosen)
        done.append(chosen)
    return done


def _named(entry, entries):
    text = repr({name: value for name, value in entry.items() if name != "id"})
    return {each["id"] for each in entries if each["id"] in text}


def calls(entries, *, seed):
    """The entries cut into calls of one to six."""
    chance, left, calls = random.Random(seed), list(entries), []
    while left:
        size = chance.randint(1, 6)
        calls.append(left[:size])
        left = left[size:]
    return calls


def rows_after(store, *, seed):
    """What facts and worked tables hold once the book has taken the story in that order; 0 is the order as told."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(book, "_numbers", count(1))  # the same ids in every book
        open_book = anew(book.opened)(store)
        told = story(open_book)
    for call in calls(shuffled(told, seed=seed) if seed else told, seed=seed):
        open_book.say(*call, moments=EVENING)
    assert (verify(store).problems, check(store).differences) == ((), ())
    return copy_of(store, *of_kind("facts", "worked"), without=OF_ARRIVAL)


@pytest.fixture(scope="module")
def as_told(sqlite_template, tmp_path_factory):
    """The rows of the story in the order in which it is told."""
    file = shutil.copy(sqlite_template, tmp_path_factory.mktemp("as_told") / "repairlog.db")
    store = open_store(f"sqlite:///{file}", rulebooks=RULEBOOKS)
    yield rows_after(store, seed=0)
    store.close()


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_entries_in_any_order_and_in_any_calls_give_the_same_rows_on_both_databases(store, as_told, seed):
    shuffled_rows = rows_after(store, seed=seed)
    assert changed(as_told, shuffled_rows) == set()
    assert shuffled_rows == as_told


def test_the_story_comes_to_something_worth_comparing(as_told):
    """What the story comes to, worked out by hand."""
    assert sorted(row[2] for row in as_told["leak"]) == ["ended", "ended"]
    assert sorted(row[3] for row in as_told["attempt"]) == [1, 1, 2, 3]
    assert sorted((row[4], row[6], row[8]) for row in as_told["attempt"]) == [
        ("permanent", "not_tight", "waiting"),
        ("permanent", "tight", "accepted"),
        ("permanent", "tight", "waiting"),
        ("permanent", "tight", "waiting"),
    ]
    assert sorted(row[1] for row in as_told["gap"]) == [
        "ending_does_not_hold",
        "expired_lot_used",
        "grade_not_known",
        "reading_at_no_place",
        "repair_not_accepted",
        "repaired_before_reported",
    ]
    assert [(row[3], row[4]) for row in as_told["bar_hole"]] == [
        (1, "6 ft from wall"),
        (2, "over the service"),
        (3, "at the kerb"),
    ]
    assert [row[1] for row in as_told["street"]] == ["MILL LANE", "QUARRY LANE"]
