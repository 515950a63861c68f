"""What the fixtures promise: an empty book, migrated, of this test alone, on both databases."""

import pytest
from sqlalchemy import inspect, text

from repairlog.records.store import open_store


def tables(store):
    return set(inspect(store.engine).get_table_names())


@pytest.mark.parametrize("turn", [1, 2])
def test_each_test_finds_an_empty_book(store, turn):
    with store.writing() as tx:
        before = tx.connection.execute(text("SELECT count(*) FROM street")).scalar()
        assert (turn, before) == (turn, 0)
        assert tables(store) >= {"alembic_version", "street"}


def test_the_store_is_of_the_kind_that_was_asked_for(database_url, store):
    assert database_url.startswith(store.dialect + ":")


def test_two_databases_of_one_test_are_two(sqlite_store, postgresql_store):
    assert (sqlite_store.dialect, postgresql_store.dialect) == ("sqlite", "postgresql")
    assert tables(sqlite_store) == tables(postgresql_store)


def test_a_second_store_may_be_opened_on_the_same_database(database_url, store):
    second = open_store(database_url)
    assert tables(second) == tables(store)
    second.close()
