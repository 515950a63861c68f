"""The database itself refuses to change the journal, whoever asks: it takes the next line and nothing else.

Everything here is raw SQL through the driver as the owner of the tables.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from hashlib import sha256

import psycopg
import pytest

from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.verify import verify
from tests.makers import book
from tests.makers.copies import copy_of

REFUSED = (sqlite3.IntegrityError, psycopg.errors.IntegrityConstraintViolation, psycopg.errors.UniqueViolation)
LAST = 8
"""The last index of the prepared book; the next is one more."""
NEXT = LAST + 1
LINE = b'{"index":9}'
LEAF = sha256(b"\x00" + LINE).digest()


ON_SQLITE = pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
ON_POSTGRESQL = pytest.mark.parametrize("database_url", ["postgresql"], indirect=True)


@pytest.fixture
def filled(store):
    """An open book of nine lines."""
    open_book = book.opened(store)
    open_book.say(book.leak(open_book, reporter_name="J. Thwaite"))
    return store


@pytest.fixture
def adopted(store):
    """An open book in which the text of a rulebook is kept."""
    open_book = book.opened(store)
    open_book.say(book.adopted(open_book.area))
    return store


@pytest.fixture
def raw(filled, plainly):
    """A plain connection to the filled book."""
    return plainly


@pytest.fixture
def plainly(store, database_url):
    """A plain connection of the driver, without any setting of ours."""
    if database_url.startswith("sqlite"):
        with closing(sqlite3.connect(database_url.removeprefix("sqlite:///"), isolation_level=None)) as connection:
            yield connection
    else:
        with psycopg.connect(database_url, autocommit=True) as connection:
            yield connection


def run(raw, statement, *values):
    if isinstance(raw, psycopg.Connection):
        statement = statement.replace("?", "%s")
    return raw.execute(statement, values)


def id_at(raw, index):
    return run(raw, "SELECT id FROM journal WHERE journal_index = ?", index).fetchone()[0]


def new_id(raw):
    made = book.read_id(book.new_id())
    return made if isinstance(raw, psycopg.Connection) else made.bytes


def check_refused(store, raw, statement, *values):
    """The statement is refused, and journal and head are as they were."""
    before = copy_of(store)
    with pytest.raises(REFUSED):
        run(raw, statement, *values)
    assert copy_of(store) == before
    assert verify(store).problems == ()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE journal SET line = line",
        "UPDATE journal SET leaf = leaf WHERE journal_index = 8",
        "UPDATE journal SET journal_index = journal_index + 100",
        "UPDATE journal SET journal_index = 9 WHERE journal_index = 8",
        "UPDATE journal SET id = id WHERE journal_index = 0",
        "DELETE FROM journal",
        "DELETE FROM journal WHERE journal_index = 8",
        "UPDATE head SET size = size - 1",
        "UPDATE head SET size = size",
        "UPDATE head SET root = peaks",
        "UPDATE head SET size = 0",
        "UPDATE head SET only = 2, size = size + 1",
        "DELETE FROM head",
        "INSERT INTO head SELECT * FROM head",
        "INSERT INTO head (only, size, peaks, root) SELECT 2, size + 1, peaks, root FROM head",
        "INSERT INTO head SELECT * FROM head WHERE true ON CONFLICT (only) DO UPDATE SET size = 0",
    ],
)
def test_no_line_and_no_head_is_changed_or_deleted(filled, raw, statement):
    if isinstance(raw, psycopg.Connection):
        statement = statement.replace("only", '"only"')
    check_refused(filled, raw, statement)


INSERT = "INSERT INTO journal (journal_index, id, line, leaf) VALUES (?, ?, ?, ?)"


@pytest.mark.parametrize("index", [-1, 0, LAST, NEXT + 1, NEXT + 1000])
def test_an_index_that_is_not_the_next_is_refused(filled, raw, index):
    check_refused(filled, raw, INSERT, index, new_id(raw), LINE, LEAF)


def test_the_next_index_is_taken(filled, raw):
    run(raw, INSERT, NEXT, new_id(raw), LINE, LEAF)
    assert run(raw, "SELECT count(*) FROM journal").fetchone() == (NEXT + 1,)


@pytest.mark.parametrize("index", [0, LAST])
def test_an_id_that_is_there_already_is_refused(filled, raw, index):
    check_refused(filled, raw, INSERT, NEXT, id_at(raw, index), LINE, LEAF)


def test_two_lines_at_once_with_a_gap_between_them_are_refused_both(filled, raw):
    two = INSERT + ", (?, ?, ?, ?)"
    check_refused(filled, raw, two, NEXT, new_id(raw), LINE, LEAF, NEXT + 2, new_id(raw), LINE, LEAF)


def test_putting_a_line_in_the_place_of_one_of_its_key_is_refused(filled, raw):
    for key, id in (("journal_index", new_id(raw)), ("id", id_at(raw, LAST))):
        index = LAST if key == "journal_index" else NEXT
        upsert = f"{INSERT} ON CONFLICT ({key}) DO UPDATE SET line = excluded.line"
        check_refused(filled, raw, upsert, index, id, LINE, LEAF)


@ON_POSTGRESQL
@pytest.mark.parametrize("statement", ["TRUNCATE journal", "TRUNCATE head", "TRUNCATE journal, head CASCADE"])
def test_postgresql_truncates_neither(filled, raw, statement):
    check_refused(filled, raw, statement)


@ON_POSTGRESQL
def test_postgresql_copies_in_no_gap(filled, raw):
    before = copy_of(filled)
    with pytest.raises(REFUSED), raw.cursor().copy("COPY journal (journal_index, id, line, leaf) FROM STDIN") as copy:
        copy.write_row((NEXT + 1, new_id(raw), LINE, LEAF))
    assert copy_of(filled) == before


REPLACING = ["INSERT OR REPLACE", "REPLACE"]


@ON_SQLITE
@pytest.mark.parametrize("replace", REPLACING)
@pytest.mark.parametrize("recursive", [0, 1])
def test_sqlite_replaces_no_line_on_any_unique_key(filled, raw, replace, recursive):
    """Index, id, and the row's own number, which SQLite lets anybody name."""
    raw.execute(f"PRAGMA recursive_triggers = {recursive}")
    put = replace + " INTO journal (journal_index, id, line, leaf) VALUES (?, ?, ?, ?)"
    check_refused(filled, raw, put, LAST, new_id(raw), LINE, LEAF)
    check_refused(filled, raw, put, NEXT, id_at(raw, 0), LINE, LEAF)
    check_refused(filled, raw, put, LAST, id_at(raw, LAST), LINE, LEAF)
    by_number = replace + " INTO journal (rowid, journal_index, id, line, leaf) VALUES (?, ?, ?, ?, ?)"
    for (number,) in raw.execute("SELECT rowid FROM journal").fetchall():
        check_refused(filled, raw, by_number, number, NEXT, new_id(raw), LINE, LEAF)


@ON_SQLITE
@pytest.mark.parametrize("replace", [*REPLACING, "INSERT OR IGNORE", "INSERT OR FAIL", "INSERT OR ROLLBACK"])
def test_sqlite_replaces_no_head(filled, raw, replace):
    check_refused(filled, raw, replace + " INTO head (only, size, peaks, root) SELECT 1, 0, peaks, root FROM head")
    check_refused(filled, raw, replace + " INTO head (rowid, only, size, peaks, root) SELECT rowid, * FROM head")


@ON_SQLITE
@pytest.mark.parametrize("update", ["UPDATE OR REPLACE", "UPDATE OR IGNORE"])
def test_sqlite_updates_no_line_in_the_place_of_another(filled, raw, update):
    check_refused(filled, raw, f"{update} journal SET journal_index = 0 WHERE journal_index = 8")
    check_refused(filled, raw, f"{update} journal SET rowid = 1 WHERE journal_index = 8")


def test_what_stands_beside_the_journal_can_be_removed(filled, raw):
    run(raw, "UPDATE private_value SET salt = NULL, value = NULL")
    assert [(row[3], row[4]) for row in copy_of(filled, PRIVATE_VALUE)["private_value"]] == [(None, None)]
    assert verify(filled).problems == ()


OF_TEXTS = [
    "UPDATE rulebook_text SET text = 'another'",
    "UPDATE rulebook_text SET id = 'x'",
    "DELETE FROM rulebook_text",
]


@pytest.mark.parametrize("statement", OF_TEXTS)
def test_the_text_of_an_adopted_rulebook_is_neither_changed_nor_deleted(adopted, plainly, statement):
    check_refused(adopted, plainly, statement)


@ON_POSTGRESQL
def test_postgresql_truncates_no_texts(adopted, plainly):
    check_refused(adopted, plainly, "TRUNCATE rulebook_text")


@ON_SQLITE
@pytest.mark.parametrize("replace", REPLACING)
def test_sqlite_replaces_no_text(adopted, plainly, replace):
    put = (
        f"{replace} INTO rulebook_text (digest, id, title, text, extends) SELECT digest, id, title, 'another', extends"
    )
    check_refused(adopted, plainly, put + " FROM rulebook_text")
    by_number = f"{replace} INTO rulebook_text (rowid, digest, id, title, text, extends)"
    check_refused(adopted, plainly, by_number + " SELECT rowid, 'x', id, title, text, extends FROM rulebook_text")
