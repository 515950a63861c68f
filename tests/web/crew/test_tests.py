"""A further test of a repair decides over it."""

from sqlalchemy import select

from repairlog.records.store import Store
from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import fill_in
from tests.makers.site import site


def test_a_further_test_is_entered_for_its_attempt_and_decides_over_it(sqlite_store: Store) -> None:
    book = m.opened(sqlite_store)
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], outcome="not_tested")
    book.say(leak, attempt)
    address = f"/leaks/{leak['id']}/attempts/{attempt['id']}/test"
    crew = site(book).client(book.crew)
    drawn = crew.get(address).text
    saved = fill_in(
        crew,
        address,
        test__happened=["2026-03-06", ""],
        test__kind_of_test="pressure_hold",
        test__result="tight",
        test__duration="15 min",
    )
    assert "Attempt 1, 5 Mar 2026: bolt_on_clamp, permanent, not tested" in drawn
    assert saved.status_code == 303
    with sqlite_store.reading() as tx:
        (row,) = tx.connection.execute(select(METADATA.tables["attempt"]))
        (test,) = tx.connection.execute(select(METADATA.tables["tested"]))
    assert (row.outcome, row.decided_by_id, test.duration_s) == ("tight", test.id, 900.0)


def test_an_attempt_of_another_leak_a_void_one_and_a_leak_elsewhere_are_not_there(sqlite_store: Store) -> None:
    book = m.opened(sqlite_store)
    leak, other, elsewhere = m.leak(book), m.leak(book), m.leak(book, area=book.other_area)
    attempts = [m.attempt(each["id"], happened="2026-03-04") for each in (leak, leak, other, elsewhere)]
    book.say(leak, other, elsewhere, *attempts)
    book.say(m.void(attempts[1]["id"]))
    crew = site(book).client(book.crew)
    asked = [(leak, attempts[0]), (leak, attempts[1]), (leak, attempts[2]), (elsewhere, attempts[3])]
    answers = [crew.get(f"/leaks/{of['id']}/attempts/{attempt['id']}/test").status_code for of, attempt in asked]
    assert answers == [200, 404, 404, 404]
