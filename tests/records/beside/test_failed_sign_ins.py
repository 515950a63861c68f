"""Guessing gets slower, counts survive everything but time, and nobody outside can lock a person out."""

from datetime import datetime, timedelta

import pytest
from sqlalchemy import select

from repairlog.records.beside.failed_sign_ins import Trying, count_failure, forget_failures, wait_of
from repairlog.records.store import Store, open_store
from repairlog.records.tables.beside import FAILED_SIGN_IN
from tests.makers.book import RECEIVED as AT
from tests.makers.copies import rows
from tests.makers.together import together

SECOND, MINUTE, HOUR = timedelta(seconds=1), timedelta(minutes=1), timedelta(hours=1)
HERE = Trying(name="M. Aldous", address="192.0.2.7")


def failed(store: Store, trying: Trying = HERE, *, times: int = 1, at: datetime = AT) -> None:
    for _ in range(times):
        count_failure(store, trying, at=at)


def counts(store: Store) -> list[int]:
    return sorted(row["failures"] for row in rows(store, FAILED_SIGN_IN))


@pytest.mark.parametrize(
    ("failures", "wait"),
    [
        (0, 0 * SECOND),
        (4, 0 * SECOND),
        (5, 30 * SECOND),
        (6, 1 * MINUTE),
        (7, 2 * MINUTE),
        (8, 4 * MINUTE),
        (9, 8 * MINUTE),
        (10, 15 * MINUTE),
        (11, 15 * MINUTE),
    ],
)
def test_after_five_failures_of_a_name_from_one_address_the_wait_doubles_up_to_fifteen_minutes(
    store: Store, failures: int, wait: timedelta
) -> None:
    failed(store, times=failures)
    assert wait_of(store, HERE, at=AT) == wait


def test_the_wait_runs_from_the_last_failure_and_ends(store: Store) -> None:
    failed(store, times=5)
    waits = [wait_of(store, HERE, at=AT + seconds * SECOND) for seconds in (1, 29, 30, 31)]
    assert waits == [29 * SECOND, 1 * SECOND, 0 * SECOND, 0 * SECOND]


def test_a_clock_that_was_set_back_makes_nobody_wait_for_longer(store: Store) -> None:
    failed(store, times=5)
    assert wait_of(store, HERE, at=AT - 5 * HOUR) == 30 * SECOND


def test_a_name_is_counted_however_it_is_written(store: Store) -> None:
    failed(store, Trying(name=" m.  ALDOUS", address=HERE.address), times=5)
    assert wait_of(store, HERE, at=AT) == 30 * SECOND


def test_who_guesses_from_elsewhere_does_not_make_a_person_wait(store: Store) -> None:
    failed(store, Trying(name=HERE.name, address="203.0.113.9"), times=49)
    assert wait_of(store, HERE, at=AT) == 0 * SECOND


def test_of_one_name_from_many_addresses_the_fiftieth_failure_makes_wait_for_ten_seconds(store: Store) -> None:
    for place in range(49):
        failed(store, Trying(name=HERE.name, address=f"203.0.113.{place}"))
    before = wait_of(store, HERE, at=AT)
    failed(store, Trying(name=HERE.name, address="203.0.113.49"), times=3)
    assert (before, wait_of(store, HERE, at=AT)) == (0 * SECOND, 10 * SECOND)


def test_a_browser_in_which_the_person_has_signed_in_does_not_stand_behind_those_who_guess(store: Store) -> None:
    for place in range(60):
        failed(store, Trying(name=HERE.name, address=f"203.0.113.{place}"))
    known = Trying(name=HERE.name, address=HERE.address, browser="chance")
    assert (wait_of(store, HERE, at=AT), wait_of(store, known, at=AT)) == (10 * SECOND, 0 * SECOND)
    failed(store, known, times=5)
    assert wait_of(store, known, at=AT) == 30 * SECOND


def test_of_one_address_under_many_names_the_two_hundredth_failure_makes_wait_for_ten_seconds(store: Store) -> None:
    for place in range(199):
        failed(store, Trying(name=f"name {place}", address=HERE.address))
    before = wait_of(store, HERE, at=AT)
    failed(store, Trying(name="name 199", address=HERE.address))
    assert (before, wait_of(store, HERE, at=AT)) == (0 * SECOND, 10 * SECOND)


def test_coming_in_clears_the_pair_and_leaves_what_is_counted_of_name_and_address(store: Store) -> None:
    failed(store, times=9)
    forget_failures(store, HERE)
    assert (wait_of(store, HERE, at=AT), counts(store)) == (0 * SECOND, [9, 9])


@pytest.mark.parametrize(
    ("later", "wait"), [(24 * HOUR - SECOND, 1 * MINUTE), (24 * HOUR, 1 * MINUTE), (24 * HOUR + SECOND, 0 * SECOND)]
)
def test_failures_of_a_name_from_one_address_are_in_a_row_within_a_day(
    store: Store, later: timedelta, wait: timedelta
) -> None:
    failed(store, times=5)
    failed(store, at=AT + later)
    assert wait_of(store, HERE, at=AT + later) == wait


def test_counts_of_a_name_alone_are_forgotten_after_an_hour(store: Store) -> None:
    failed(store, Trying(name=HERE.name, address="203.0.113.9"), times=60)
    failed(store, Trying(name=HERE.name, address="203.0.113.10"), at=AT + HOUR + SECOND)
    assert wait_of(store, HERE, at=AT + HOUR + SECOND) == 0 * SECOND


def test_rows_that_are_older_than_a_day_go(store: Store) -> None:
    failed(store, times=2)
    other = Trying(name="D. Okoro", address="203.0.113.9")
    failed(store, other, at=AT + 24 * HOUR)
    kept = counts(store)
    failed(store, other, at=AT + 24 * HOUR + SECOND)
    assert (kept, counts(store)) == ([1, 1, 1, 2, 2, 2], [2, 2, 2])


def test_what_is_counted_at_one_moment_in_two_processes_is_counted_whole(store: Store, database_url: str) -> None:
    other = open_store(database_url)
    together(16, lambda place: count_failure((store, other)[place % 2], HERE, at=AT))
    other.close()
    assert counts(store) == [16, 16, 16]


def test_sixteen_who_fail_under_names_of_their_own_while_old_rows_go_do_not_cross(store: Store) -> None:
    names = [Trying(name=f"name {place % 5}", address=f"192.0.2.{place % 3}") for place in range(16)]
    for trying in names:
        failed(store, trying)
    together(16, lambda place: count_failure(store, names[place], at=AT + 25 * HOUR))
    assert sum(counts(store)) == 3 * 16


def test_the_table_tells_neither_a_name_nor_an_address(store: Store) -> None:
    failed(store)
    with store.reading() as tx:
        keys = tx.connection.execute(select(FAILED_SIGN_IN.c.key)).scalars().all()
    assert sorted(len(key) for key in keys) == [64, 64, 64]
    assert "aldous" not in "".join(keys)
