"""The settings of a book of record, asked from a connection that is open: nothing acknowledged may be lost."""

from dataclasses import replace

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import DBAPIError

from repairlog.records.store import Away, Busy, NotReady, Store, open_store
from repairlog.records.store.engine import read_url
from repairlog.records.store.fair_lock import FairLock
from tests.makers.postgresql import free_port

SQLITE = {  # value as SQLite tells it; PRAGMA synchronous: 2 is FULL, https://www.sqlite.org/pragma.html
    "journal_mode": "wal",
    "synchronous": 2,
    "foreign_keys": 1,
    "busy_timeout": 10_000,
}
POSTGRESQL = {
    "synchronous_commit": "on",
    "lock_timeout": "30s",
    "statement_timeout": "10min",
    "TimeZone": "UTC",
}


def ways_in(store):
    return {"writing": store.writing, "reading": store.reading}


@pytest.mark.parametrize("way", ["writing", "reading"])
def test_a_connection_of_sqlite_is_durable_and_patient(sqlite_store, way):
    with ways_in(sqlite_store)[way]() as tx:
        asked = {name: tx.connection.execute(text(f"PRAGMA {name}")).scalar() for name in SQLITE}
    assert asked == SQLITE


@pytest.mark.parametrize("way", ["writing", "reading"])
def test_a_session_of_postgresql_is_durable_does_not_wait_for_ever_and_speaks_utc(postgresql_store, way):
    with ways_in(postgresql_store)[way]() as tx:
        asked = {name: tx.connection.execute(text(f"SHOW {name}")).scalar() for name in POSTGRESQL}
    assert asked == POSTGRESQL


@pytest.mark.parametrize(("way", "level"), [("writing", "read committed"), ("reading", "repeatable read")])
def test_postgresql_writes_read_committed_and_reads_one_state(postgresql_store, way, level):
    with ways_in(postgresql_store)[way]() as tx:
        assert tx.connection.execute(text("SHOW transaction_isolation")).scalar() == level


def test_connections_given_back_and_taken_again_keep_their_settings(sqlite_store):
    for _ in range(3):
        with sqlite_store.reading() as tx:
            assert tx.connection.execute(text("PRAGMA synchronous")).scalar() == 2
        with sqlite_store.writing() as tx:
            assert tx.connection.execute(text("PRAGMA foreign_keys")).scalar() == 1


def test_a_reader_sees_one_state_throughout_while_others_write(store):
    counted = text("SELECT count(*) FROM unfinished")
    put = text(
        "INSERT INTO unfinished (id, person_id, because, form, raw, kept_at) SELECT id, id, 'left', 'entries', '[]', "
        + ("'2026-03-05T10:00:00.000Z'" if store.dialect == "sqlite" else "now()")
        + " FROM (SELECT "
        + ("randomblob(16)" if store.dialect == "sqlite" else "gen_random_uuid()")
        + " AS id) AS made"
    )
    with store.reading() as tx:
        before = tx.connection.execute(counted).scalar()
        with store.writing() as other:
            other.connection.execute(put)
        assert (before, tx.connection.execute(counted).scalar()) == (0, 0)
    with store.reading() as tx:
        assert tx.connection.execute(counted).scalar() == 1


def test_what_is_raised_inside_a_writing_transaction_takes_all_of_it_back(store):
    def fail():
        with store.writing() as tx:
            tx.connection.execute(text("UPDATE head SET size = size + 5"))
            raise KeyError

    with pytest.raises(KeyError):
        fail()
    with store.reading() as tx:
        assert tx.connection.execute(text("SELECT size FROM head")).scalar() == 0


def test_whoever_waits_too_long_for_the_book_is_told_that_it_is_busy(sqlite_store):
    impatient = replace(sqlite_store, lock=FairLock(sqlite_store.lock._file, patience=0.1))
    with sqlite_store.writing(), pytest.raises(Busy), impatient.writing():
        pytest.fail("another was writing")


def test_whoever_waits_too_long_for_a_connection_is_told_that_the_book_is_busy(postgresql_url):
    engine = create_engine(read_url(postgresql_url), pool_size=1, max_overflow=0, pool_timeout=0.1)
    crowded = Store(engine=engine, dialect="postgresql", lock=None)
    with crowded.writing(), pytest.raises(Busy), crowded.writing():
        pytest.fail("the only connection was in use")
    crowded.close()


def test_a_server_that_is_gone_is_told_apart_from_a_fault(postgresql_url):
    store = open_store(postgresql_url)
    with pytest.raises(Away), store.reading() as tx:
        tx.connection.execute(text("SELECT pg_terminate_backend(pg_backend_pid())"))
    store.close()
    nobody = read_url(postgresql_url).set(host="127.0.0.1", port=free_port())
    gone = Store(engine=create_engine(nobody), dialect="postgresql", lock=None)
    with pytest.raises(Away), gone.writing():
        pytest.fail("nobody listens there")
    with pytest.raises(NotReady) as told:
        open_store(nobody.render_as_string(hide_password=False))
    assert (told.value.code, "refused" in told.value.facts["said"]) == ("cannot_be_opened", True)


def test_what_a_statement_was_given_is_not_in_the_error_of_its_failure(store):
    """A caller's name would stand in the log with it."""
    with pytest.raises(DBAPIError) as failed, store.writing() as tx:
        tx.connection.execute(text("INSERT INTO private_value (not_there) VALUES (:name)"), {"name": "N. Harbottle"})
    assert "Harbottle" not in str(failed.value)
