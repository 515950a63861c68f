"""`repairlog upgrade`: a book of an older release is told as such everywhere, and brought to this one as a whole.

The old book has the tables of the first release and a journal that was sealed into them: `old_book/lines.txt`.
"""

from __future__ import annotations

import json
import signal
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config

from repairlog import shipped
from repairlog.records import journal
from repairlog.records.store import open_store
from repairlog.records.store.engine import make_engine, read_url
from repairlog.records.store.store import Store, revision
from repairlog.records.tables import ENGINE_VERSION, worked
from tests.makers.cells import do
from tests.makers.copies import rows
from tests.makers.serve import serving

LINES = (Path(__file__).parent / "old_book" / "lines.txt").read_bytes().splitlines()
TOLD = (
    f"The database has the tables of revision 0001; this release wants {revision()}. "
    "Make a backup, then `repairlog upgrade` brings the book to this release.\n"
)


@pytest.fixture
def old(tmp_path):
    """The address of a book as the first release left it."""
    url = f"sqlite:///{tmp_path}/old.db"
    engine = make_engine(read_url(url))
    settings = Config()
    settings.set_main_option("script_location", str(shipped.migrations()))
    settings.attributes["engine"] = engine
    command.upgrade(settings, "0001")
    with Store(engine=engine, dialect="sqlite", lock=None).writing() as tx:
        sealed = [json.loads(line) for line in LINES]
        journal.append(tx, [{name: part for name, part in each.items() if name != "index"} for each in sealed])
    engine.dispose()
    return url


@pytest.mark.parametrize("words", [("serve", "--port", "0"), ("rebuild", "--check"), ("journal", "verify")])
def test_an_old_book_is_told_with_what_brings_it_up(say, old, words):
    answer = say(*words, "--database", old)
    assert (answer.code, answer.out, answer.err) == (2, "", TOLD)


def test_an_old_book_holds_as_its_journal_says_once_it_is_brought_up(say, old):
    brought = say("upgrade", "--json", "--database", old)
    assert (brought.code, json.loads(brought.out)["rows"] > 60) == (0, True)
    assert say("rebuild", "--check", "--database", old).code == 0
    assert say("journal", "verify", "--database", old).code == 0
    store = open_store(old)
    leaks = [(row["number"], row["status"], row["grade_now"], row["house_number"]) for row in rows(store, worked.LEAK)]
    with store.reading() as tx:
        stands = [bytes(line) for _index, _id, line, _leaf in journal.lines(tx)]
    store.close()
    assert sorted(leaks) == [("4417", "open", "2", "14"), ("ES-26-0001", "ended", "2", "16")]
    assert stands == LINES
    again = say("upgrade", "--database", old)
    assert (again.code, again.out, again.err) == (0, "The book is of this release already.\n", "")


def test_a_book_whose_rows_an_older_release_worked_out_is_told_when_it_is_served_or_checked(say, made_on_sqlite):
    store = open_store(made_on_sqlite)
    do(store, f"UPDATE area SET engine = {ENGINE_VERSION - 1}, code = 'WS'")
    with serving(made_on_sqlite) as server:
        assert server.get("/healthy")[0] == 200
        served = say("upgrade", "--database", made_on_sqlite)
        assert (served.code, served.err.startswith("Another process serves ")) == (2, True)
        warned = "An older release worked out rows of this book: stop this, and run `repairlog upgrade`.\n"
        assert server.end(signal.SIGTERM)[2] == warned
    checked = say("rebuild", "--check", "--database", made_on_sqlite)
    assert (checked.code, checked.err.splitlines()) == (
        1,
        [
            "0 wrong, 0 waiting to be worked out again, 2 of an older release",
            "`repairlog upgrade` works out anew what an older release worked out.",
        ],
    )
    assert say("upgrade", "--database", made_on_sqlite).code == 0
    assert say("rebuild", "--check", "--database", made_on_sqlite).code == 0
    assert [row["code"] for row in rows(store, worked.AREA)] == ["ES"]
    store.close()
    with serving(made_on_sqlite) as server:
        assert server.end(signal.SIGTERM)[2] == ""


def test_a_book_that_is_not_there_or_of_a_newer_release_is_left_as_it_is(say, made_on_sqlite, tmp_path):
    nowhere = say("upgrade", "--database", f"sqlite:///{tmp_path}/none.db")
    assert (nowhere.code, nowhere.err.startswith("There is no database at ")) == (2, True)
    assert not (tmp_path / "none.db").exists()
    store = open_store(made_on_sqlite)
    do(store, "UPDATE alembic_version SET version_num = '9999'")
    store.close()
    newer = say("upgrade", "--database", made_on_sqlite)
    assert (newer.code, "revision 9999" in newer.err, "Use the release" in newer.err) == (2, True, True)
