"""Voids on their way in: what a later correction was read with is not taken from under it."""

import pytest

from repairlog.intake import WaitsFor
from repairlog.records.store import Store
from tests.intake.lines import complained, now
from tests.makers import book as m
from tests.makers.book import Book


@pytest.fixture
def book(sqlite_store: Store) -> Book:
    """On SQLite alone: what is tried here is worked out before any database is written."""
    return m.opened(sqlite_store)


def test_a_void_is_not_corrected_but_made_void(book: Book) -> None:
    leak = m.leak(book)
    void = m.void(leak["id"])
    book.say(leak, void)
    assert complained(book, m.corrected(void["id"], ("reason", "x"))) == [(0, "entry", "void_is_not_corrected")]
    book.say(m.void(void["id"]))
    assert now(book.store, leak["id"]).void is None


def test_the_operator_and_an_area_are_never_made_void(book: Book) -> None:
    found = [complained(book, m.void(id)) for id in (book.operator, book.area)]
    assert found == [[(0, "entry", "not_to_be_voided")]] * 2


def test_a_lot_a_person_and_a_leak_are_made_void(book: Book) -> None:
    leak = m.leak(book)
    book.say(leak, m.void(leak["id"]), m.void(book.lot), m.void(str(book.crew.person)))
    assert [now(book.store, id).void is not None for id in (leak["id"], book.lot, str(book.crew.person))] == [True] * 3


def test_a_void_of_what_is_not_there_waits(book: Book) -> None:
    with pytest.raises(WaitsFor):
        book.say(m.void(m.new_id()))


def test_a_void_that_would_leave_half_a_row_is_sent_back_until_the_later_correction_is_void(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "W-81?", "used": "1"}])
    lot = m.corrected(attempt["id"], ("materials.m1.lot", book.lot))
    name = m.corrected(attempt["id"], ("materials.m1.named", None))
    book.say(leak, attempt, lot, name)
    assert complained(book, m.void(lot["id"])) == [(0, "entry", "leaves_unreadable")]
    book.say(m.void(name["id"]), m.void(lot["id"]))
    assert now(book.store, attempt["id"]).said["materials"] == attempt["materials"]


def test_a_gas_is_not_taken_back_under_a_value_that_was_read_with_it(book: Book) -> None:
    # Source: the lower explosive limits of propane and methane are 2.1 % and 5.0 % (NFPA 325).
    leak = m.leak(book)
    visit = m.visit(leak["id"], places=[], readings=[{"key": "r1", "value": "50 %LEL"}])
    gas = m.corrected(visit["id"], ("readings.r1.gas", "propane"))
    value = m.corrected(visit["id"], ("readings.r1.value", "40 %LEL"))
    book.say(leak, visit, gas, value)
    assert now(book.store, visit["id"]).understood["readings.r1.value"] == "0.84 %gas propane"
    assert complained(book, m.void(gas["id"])) == [(0, "entry", "leaves_misread")]
    away = m.void(gas["id"])
    book.say(m.void(value["id"]), away)
    assert now(book.store, visit["id"]).understood["readings.r1.value"] == "2.5 %gas methane"
    book.say(m.corrected(visit["id"], ("readings.r1.value", "40 %LEL")))
    assert complained(book, m.void(away["id"])) == [(0, "entry", "leaves_misread")]


def test_a_move_is_not_taken_back_under_a_day_that_was_read_in_the_other_zone(book: Book) -> None:
    leak = m.leak(book)
    move = m.corrected(leak["id"], ("area", book.other_area))
    day = m.corrected(leak["id"], ("happened", "2026-03-02 08:00"))
    book.say(leak, move, day)
    assert complained(book, m.void(move["id"])) == [(0, "entry", "leaves_misread")]
    book.say(m.void(day["id"]), m.void(move["id"]))
    assert now(book.store, leak["id"]).understood["zone"] == "America/New_York"


def test_a_correction_is_taken_back_under_a_later_one_that_does_not_rest_on_it(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    method = m.corrected(attempt["id"], ("method", "weld"))
    pressure = m.corrected(attempt["id"], ("pressure_found", "60 psi"), ("happened", "2026-03-05 09:00"))
    book.say(leak, attempt, method, pressure, m.void(method["id"]))
    stands = now(book.store, attempt["id"])
    assert (stands.text("method"), stands.text("pressure_found")) == ("bolt_on_clamp", "60 psi")


def test_of_an_entry_that_is_void_anything_is_taken_back_but_then_not_its_void(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "W-81?", "used": "1"}])
    lot = m.corrected(attempt["id"], ("materials.m1.lot", book.lot))
    name = m.corrected(attempt["id"], ("materials.m1.named", None))
    void, lot_away = m.void(attempt["id"]), m.void(lot["id"])
    book.say(leak, attempt, lot, name, void, lot_away)
    assert complained(book, m.void(void["id"])) == [(0, "entry", "leaves_unreadable")]
    book.say(m.void(lot_away["id"]), m.void(void["id"]))
    assert now(book.store, attempt["id"]).void is None


def test_a_correction_is_not_given_back_where_that_would_leave_half_a_row(book: Book) -> None:
    leak = m.leak(book)
    attempt = m.attempt(
        leak["id"], materials=[{"key": "m1", "named": "W-81?", "used": "1"}, {"key": "m2", "lot": book.lot}]
    )
    name = m.corrected(attempt["id"], ("materials.m1.named", None), ("materials.m1.lot", book.lot))
    away = m.void(name["id"])
    book.say(leak, attempt, name, away, m.corrected(attempt["id"], ("materials.m1.lot", book.lot)))
    book.say(m.corrected(attempt["id"], ("materials.m1.lot", None)))
    assert now(book.store, attempt["id"]).said["materials"][0] == {"key": "m1", "named": "W-81?", "used": "1"}
    assert complained(book, m.void(away["id"])) == [(0, "entry", "leaves_unreadable")]


def test_a_pressure_keeps_its_atmosphere_when_the_correction_that_brought_one_first_is_void(book: Book) -> None:
    leak = m.leak(book)
    bare = {name: value for name, value in m.attempt(leak["id"]).items() if name != "pressure_found"}
    first = m.corrected(bare["id"], ("pressure_found", "45 psia"))
    second = m.corrected(bare["id"], ("pressure_installing", "50 psia"))
    book.say(leak, bare)
    book.say(first)
    book.say(second)
    book.say(m.void(first["id"]))
    understood = now(book.store, bare["id"]).understood
    assert {name: understood.get(name) for name in ("pressure_found", "pressure_installing", "atmosphere")} == {
        "pressure_found": None,
        "pressure_installing": "344.737865 kPa absolute",  # 50 psi of 6.894757293 kPa, NIST SP 811
        "atmosphere": "101.325 kPa absolute",
    }


def test_a_reading_keeps_its_lel_when_the_correction_that_brought_one_first_is_void(book: Book) -> None:
    leak = m.leak(book)
    visit = m.visit(leak["id"], readings=[{"key": "r1", "place": "p1", "value": "35 ppm"}])
    first = m.corrected(visit["id"], ("readings.r2.value", "10 %LEL"))
    second = m.corrected(visit["id"], ("readings.r3.value", "20 %LEL"))
    book.say(leak, visit)
    book.say(first)
    book.say(second)
    book.say(m.void(first["id"]))
    understood = now(book.store, visit["id"]).understood
    assert (understood["readings.r3.value"], understood["lel_basis"]) == ("1 %gas methane", "5.0")
