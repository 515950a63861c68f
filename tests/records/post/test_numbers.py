"""Numbers for people: the area's code, the year of the first day, the area's counter of that year."""

import pytest

from repairlog.records.tables import facts, worked
from tests.makers import book
from tests.makers.copies import rows


def numbers(open_book, *leaks):
    return [receipt.number for receipt in open_book.say(*leaks)]


def test_each_area_and_year_counts_from_one(open_book):
    here, there, last_year = {}, {"area": open_book.other_area}, {"happened": "2025-12-31 23:59"}
    call = [here, there, here | last_year, there | last_year, here, there | last_year]
    assert numbers(open_book, *[book.leak(open_book, **each) for each in call]) == [
        "ES-26-0001",
        "HF-26-0001",
        "ES-25-0001",
        "HF-25-0001",
        "ES-26-0002",
        "HF-25-0002",
    ]
    counters = {(r["year"], r["last"]) for r in rows(open_book.store, worked.AREA_COUNTER)}
    assert counters == {(2025, 1), (2025, 2), (2026, 1), (2026, 2)}


@pytest.mark.parametrize(
    ("happened", "number"),
    [("2025-12-31 23:59", "ES-25-0001"), ("2026-01-01 00:00", "ES-26-0001"), ("2026-01-01 04:59 Z", "ES-25-0001")],
)
def test_the_year_is_that_of_the_legal_day_in_the_area_s_zone(open_book, happened, number):
    assert numbers(open_book, book.leak(open_book, happened=happened)) == [number]


def test_counting_goes_on_from_call_to_call(open_book):
    found = [numbers(open_book, book.leak(open_book), book.leak(open_book)) for _ in range(2)]
    assert found == [["ES-26-0001", "ES-26-0002"], ["ES-26-0003", "ES-26-0004"]]


def test_counting_grows_past_four_digits(open_book):
    numbers(open_book, book.leak(open_book))
    with open_book.store.writing() as tx:
        tx.connection.execute(worked.AREA_COUNTER.update().values(last=9_998))
    assert numbers(open_book, *[book.leak(open_book) for _ in range(2)]) == ["ES-26-9999", "ES-26-10000"]


def test_a_number_of_an_old_list_is_kept_where_it_is_free_and_does_not_count(open_book):
    call = [book.leak(open_book, number="H-4417"), book.leak(open_book)]
    assert numbers(open_book, *call) == ["H-4417", "ES-26-0001"]


def test_a_number_of_an_old_list_that_is_taken_stays_what_was_said_and_the_leak_is_counted(open_book):
    call = [book.leak(open_book, number="H-4417"), book.leak(open_book, number="H-4417", area=open_book.other_area)]
    assert numbers(open_book, *call) == ["H-4417", "HF-26-0001"]
    assert numbers(open_book, book.leak(open_book, number="H-4417")) == ["ES-26-0001"]
    said = [(r["number"], r["number_given"]) for r in rows(open_book.store, facts.OF_KIND["leak_opened"])]
    assert said == [("H-4417", "H-4417"), ("H-4417", "HF-26-0001"), ("H-4417", "ES-26-0001")]


def test_counting_skips_numbers_that_an_old_list_took(open_book):
    taken = [book.leak(open_book, number=f"ES-26-000{place}") for place in (1, 2, 4)]
    assert numbers(open_book, *taken) == ["ES-26-0001", "ES-26-0002", "ES-26-0004"]
    assert numbers(open_book, *[book.leak(open_book) for _ in range(3)]) == ["ES-26-0003", "ES-26-0005", "ES-26-0006"]


@pytest.mark.parametrize("old_first", [True, False])
def test_an_old_number_in_the_same_call_is_kept_before_any_is_counted(open_book, old_first):
    old, new = book.leak(open_book, number="ES-26-0001"), book.leak(open_book)
    call = [old, new] if old_first else [new, old]
    given = dict(zip([each["id"] for each in call], numbers(open_book, *call), strict=True))
    assert given == {old["id"]: "ES-26-0001", new["id"]: "ES-26-0002"}


def test_a_number_once_given_stays_when_area_or_day_are_corrected_and_is_never_given_again(open_book):
    leak = book.leak(open_book)
    numbers(open_book, leak)
    open_book.say(book.corrected(leak["id"], ("area", open_book.other_area), ("happened", "2025-11-30")))
    assert [r["number"] for r in rows(open_book.store, worked.LEAK)] == ["ES-26-0001"]
    assert numbers(open_book, book.leak(open_book)) == ["ES-26-0002"]


def test_a_leak_opened_in_error_keeps_its_number(open_book):
    leak = book.leak(open_book)
    numbers(open_book, leak)
    open_book.say(book.void(leak["id"]))
    stands = [(r["number"], r["status"]) for r in rows(open_book.store, worked.LEAK)]
    assert stands == [("ES-26-0001", "opened_in_error")]
    assert numbers(open_book, book.leak(open_book)) == ["ES-26-0002"]


def test_an_area_s_code_as_it_stands_now_begins_new_numbers(open_book):
    open_book.say(book.corrected(open_book.area, ("code", "EM")))
    assert numbers(open_book, book.leak(open_book)) == ["EM-26-0001"]
