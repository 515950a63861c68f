"""Corrections and voids on their way in: what depends on a change is worked out again, nothing unreadable is left."""

from typing import Any

import pytest

from repairlog.records.store import Store
from tests.intake.lines import complained, now, righted, sealed, size
from tests.makers import book as m
from tests.makers.book import Book


@pytest.fixture
def book(sqlite_store: Store) -> Book:
    """On SQLite alone: what is tried here is worked out before any database is written."""
    return m.opened(sqlite_store)


def changed(line: dict[str, Any]) -> dict[str, Any]:
    """What a correction says is understood now."""
    return {name[4:]: value for name, value in line["understood"].items() if name.startswith("now.")}


def test_a_correction_of_plain_text_works_nothing_out_again(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    assert changed(righted(book, leak, ("street", "Mill Lane"))) == {}


def test_a_correction_has_the_moment_at_which_it_was_written(book: Book) -> None:
    leak = m.leak(book)
    correction = m.corrected(leak["id"], ("street", "Mill Lane"), written="2026-03-05T04:30:00.000Z")
    book.say(leak, correction)
    assert sealed(book.store, correction["id"])["understood"] == {
        "happened_at": "2026-03-05T04:30:00.000Z",
        "happened_on": "2026-03-04",
        "utc_offset": "-05:00",
        "zone": "America/New_York",
    }


def test_a_corrected_day_brings_its_moment_zone_and_offset(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    assert changed(righted(book, leak, ("happened", "2025-07-01 22:30"))) == {
        "happened_at": "2025-07-02T02:30:00.000Z",
        "happened_on": "2025-07-01",
        "utc_offset": "-04:00",
        "zone": "America/New_York",
    }


def test_a_day_in_place_of_a_moment_leaves_no_moment_behind(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    righted(book, leak, ("happened", "2026-03-02"))
    stands = now(book.store, leak["id"]).understood
    assert (stands["happened_on"], "happened_at" in stands, "utc_offset" in stands) == ("2026-03-02", False, False)


def test_a_corrected_measure_is_read_anew_with_the_table_that_was_used(book: Book) -> None:
    # Source: 1 psi = 6.894757 kPa (NIST SP 811 appendix B.8): 60 psi are 413.685438 kPa.
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    book.say(leak, attempt)
    line = righted(book, attempt, ("pressure_found", "60 psi"))
    assert changed(line)["pressure_found"] == "413.685438 kPa gauge"
    assert line["understood"]["units"] == sealed(book.store, attempt["id"])["understood"]["units"]
    assert now(book.store, attempt["id"]).understood["hole_size"] == "1.5875 mm"


def test_the_gas_of_a_reading_decides_how_its_value_is_read(book: Book) -> None:
    # Source: the lower explosive limit of propane is 2.1 % (NFPA 325).
    leak = m.leak(book)
    visit = m.visit(leak["id"], readings=[{"key": "r1", "place": "p1", "value": "50 %LEL", "gas": "methane"}])
    book.say(leak, visit)
    righted(book, visit, ("readings.r1.gas", "propane"))
    stands = now(book.store, visit["id"]).understood
    assert (stands["readings.r1.value"], stands["readings.r1.lel_basis"]) == ("1.05 %gas propane", "2.1")


def test_a_leak_moved_to_an_area_in_another_zone_gets_that_area_s_day_and_zone(book: Book) -> None:
    leak = m.leak(book, happened="2026-03-03 00:30")
    book.say(leak)
    righted(book, leak, ("area", book.other_area))
    stands = now(book.store, leak["id"]).understood
    assert (stands["happened_on"], stands["happened_at"], stands["zone"], stands["utc_offset"]) == (
        *("2026-03-03", "2026-03-03T07:30:00.000Z"),
        *("America/Denver", "-07:00"),
    )


def test_a_leak_moved_to_another_area_keeps_the_number_that_people_know_it_by(book: Book) -> None:
    leak = m.leak(book)
    receipt = book.say(leak)[0]
    righted(book, leak, ("area", book.other_area))
    assert now(book.store, leak["id"]).understood["number"] == receipt.number == "ES-26-0001"


def test_an_entry_moved_to_a_leak_in_another_area_is_read_with_that_area_s_atmosphere(book: Book) -> None:
    # Source: U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562): 83,431.769 Pa at 5,280 ft.
    here, there = m.leak(book), m.leak(book, area=book.other_area)
    attempt = m.attempt(here["id"], happened="2026-03-04 10:02")
    book.say(here, there, attempt)
    righted(book, attempt, ("leak", there["id"]))
    stands = now(book.store, attempt["id"]).understood
    assert (stands["atmosphere"], stands["zone"], stands["happened_at"]) == (
        *("83.4317691 kPa absolute", "America/Denver"),
        "2026-03-04T17:02:00.000Z",
    )


def test_a_corrected_grade_has_the_rank_of_the_new_one(book: Book) -> None:
    leak = m.leak(book)
    grade = m.grade(leak["id"])
    book.say(leak, grade)
    assert changed(righted(book, grade, ("grade", "1"))) == {"rank": 1}
    righted(book, grade, ("grade", "C"))
    assert "rank" not in now(book.store, grade["id"]).understood


def test_a_correction_of_a_correction_works_out_what_the_first_one_changes(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    first = m.corrected(attempt["id"], ("pressure_found", "60 psi"))
    book.say(leak, attempt, first)
    righted(book, first, ("changes.c1.to", "30 psi"))
    stands = now(book.store, attempt["id"])
    assert (stands.said["pressure_found"], stands.understood["pressure_found"]) == ("30 psi", "206.842719 kPa gauge")


def test_an_entry_is_corrected_within_its_own_call(book: Book) -> None:
    leak = m.leak(book)
    first = m.corrected(leak["id"], ("happened", "2026-03-02"))
    book.say(leak, first, m.corrected(leak["id"], ("street", "Mill Lane")), m.void(first["id"]))
    stands = now(book.store, leak["id"])
    assert (stands.said["street"], stands.on) == ("Mill Lane", "2026-03-03")


@pytest.mark.parametrize(
    ("change", "field", "code"),
    [
        (("pressure_found", "60"), "pressure_found", "unit_missing"),
        (("pressure_found", "60 psy"), "pressure_found", "unit_unknown"),
        (("outcome", "leaky"), "outcome", "not_one_of"),
        (("outcome", None), "outcome", "field_missing"),
        (("happened", "2026-02-30"), "happened", "no_such_day"),
        (("happened", "2027-01-01"), "happened", "in_the_future"),
        (("happened", None), "happened", "field_missing"),
        (("leak", None), "leak", "field_missing"),
        (("leak", "ES-26-0001"), "leak", "not_an_id"),
        (("source", "019cb4d0-1180-7abc-9def-00000000000g"), "source", "not_an_id"),
        (("materials.m1.used", "1"), "materials.m1", "needs_one_of"),
        (("materials.M 1.named", "x"), "materials.0", "row_key_unreadable"),
        (("remarks", "x" * 4000 + "\x07"), "changes.c1.to", "too_long"),
        (("method", "x" * 81), "method", "too_long"),
        (("did.d1", None), "did", "field_missing"),
        (("did.d1.person", None), "did", "field_missing"),
        (("strete", "x"), "changes", "field_unknown"),
        (("id", "x"), "changes", "field_unknown"),
        (("kind", "visit"), "changes", "field_unknown"),
        (("typed", "x"), "changes", "field_unknown"),
        (("materials.m1", "x"), "changes", "field_unknown"),
    ],
    ids=lambda value: str(value)[:50],
)
def test_a_correction_that_would_leave_an_entry_unreadable_is_sent_back(
    book: Book, change: tuple[str, str | None], field: str, code: str
) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    book.say(leak, attempt)
    assert complained(book, m.corrected(attempt["id"], change)) == [(0, field, code)]


def test_a_correction_that_changes_nothing_is_sent_back(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak)
    assert complained(book, m.corrected(leak["id"])) == [(0, "changes", "field_missing")]


def test_an_entry_does_not_put_itself_right(book: Book) -> None:
    id = m.new_id()
    assert complained(book, m.void(id, id=id)) == [(0, "entry", "speaks_of_itself")]


def test_a_correction_of_another_kind_of_subject_is_sent_back(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    book.say(leak, attempt)
    assert complained(book, m.corrected(attempt["id"], ("leak", book.lot))) == [(0, "leak", "subject_of_other_kind")]


def opened_by(book: Book, name: str) -> dict[str, Any]:
    leak = m.leak(book, reporter_name=name)
    book.say(leak)
    return leak


def test_the_new_value_of_a_private_field_stands_beside_the_journal(book: Book) -> None:
    leak = opened_by(book, "A. Caller")
    line = righted(book, leak, ("reporter_name", "B. Caller"))
    assert (list(line["private"]), "Caller" in str(line)) == (["changes.c1.to"], False)


def test_a_private_field_is_corrected_along_with_others_and_taken_away(book: Book) -> None:
    leak = opened_by(book, "A. Caller")
    righted(book, leak, ("street", "Mill Lane"))
    assert list(now(book.store, leak["id"]).private) == ["reporter_name"]
    righted(book, leak, ("reporter_name", None))
    assert dict(now(book.store, leak["id"]).private) == {}


def test_a_private_value_is_read_like_any_other(book: Book) -> None:
    leak = opened_by(book, "A. Caller")
    assert complained(book, m.corrected(leak["id"], ("reporter_name", "x" * 201))) == [(0, "reporter_name", "too_long")]


def test_a_private_value_stays_out_of_the_journal_however_many_corrections_bring_it(book: Book) -> None:
    leak = opened_by(book, "A. Caller")
    first = m.corrected(leak["id"], ("reporter_name", "B. Caller"))
    second = m.corrected(first["id"], ("changes.c1.to", "C. Caller"))
    third = m.corrected(second["id"], ("changes.c1.to", "D. Caller"))
    also = m.corrected(first["id"], ("changes.c7.field", "reporter_name"), ("changes.c7.to", "E. Caller"))
    lines = []
    for each in (first, second, third, also):
        book.say(each)
        lines.append(sealed(book.store, each["id"]))
    assert [line for line in lines if "Caller" in str(line)] == []
    stands = now(book.store, leak["id"])
    assert (list(stands.private), "reporter_name" in stands.said) == (["reporter_name"], False)
    assert stands.private["reporter_name"] == lines[3]["private"]["changes.c2.to"]


def test_a_correction_sent_twice_is_recorded_once(book: Book) -> None:
    leak = opened_by(book, "A. Caller")
    correction = m.corrected(leak["id"], ("reporter_name", "B. Caller"), ("happened", "2026-03-02"), ("town", None))
    void = m.void(correction["id"])
    receipts = [book.say(correction), book.say(void)]
    before = size(book.store)
    again = [book.say(correction), book.say(void)]
    assert ([r[0].leaf for r in again], size(book.store)) == ([r[0].leaf for r in receipts], before)


@pytest.mark.parametrize("to", ["abc", "1950.0", "1_950", "-1950", "1" * 3999])
def test_a_corrected_whole_number_is_sent_back_where_it_is_none(book: Book, to: str) -> None:
    leak = m.leak(book)
    source = m.source(leak["id"], installed_year=1949)
    book.say(leak, source)
    assert complained(book, m.corrected(source["id"], ("installed_year", to))) == [
        (0, "installed_year", "not_a_whole_number")
    ]


@pytest.mark.parametrize("to", ["97-118", None])
def test_a_corrected_number_of_an_older_list_leaves_the_leak_the_number_that_the_door_gave(
    book: Book, to: str | None
) -> None:
    leak = m.leak(book, number="97-181")
    book.say(leak)
    (receipt,) = book.say(m.corrected(leak["id"], ("number", to)))
    assert (receipt.number, now(book.store, leak["id"]).text("number")) == ("97-181", to or "")
