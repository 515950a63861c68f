"""`repairlog privacy due`: what was kept long enough goes, and everything that was sealed still holds."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta

import pytest

from repairlog import cli
from repairlog.entries.entry import Moments
from repairlog.records.beside.private import due, remove_due
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.records.verify import verify
from repairlog.settings import PRIVATE_DAYS
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.site import site

CAME = datetime(2026, 3, 5, 15, 20, tzinfo=UTC)


@pytest.fixture
def book(store):
    return m.opened(store)


def named(book, name, *, came=CAME):
    """A leak that somebody reported whose name is on the books, and that came in then."""
    leak = m.leak(book, reporter_name=name)
    book.say(leak, moments=Moments(received=came))
    return leak["id"]


@pytest.mark.parametrize(("short_by", "found"), [(timedelta(seconds=1), 0), (timedelta(0), 1), (-timedelta(days=1), 1)])
def test_a_value_is_due_from_the_moment_its_days_are_over(book, short_by, found):
    named(book, "J. Penrose")
    at = CAME + timedelta(days=30) - short_by
    assert len(due(book.store, days=30, at=at)) == found
    assert remove_due(book.store, days=30, at=at) == found


def test_what_is_removed_leaves_digest_day_and_reason_and_all_that_is_sealed_holds(book):
    old, new = named(book, "J. Penrose"), named(book, "S. Hale", came=CAME + timedelta(days=20))
    book.say(m.corrected(old, ("reporter_name", "J. Penrice")), moments=Moments(received=CAME + timedelta(days=1)))
    before = {row["digest"] for row in rows(book.store, PRIVATE_VALUE)}
    at = CAME + timedelta(days=31)
    assert [remove_due(book.store, days=30, at=at) for _again in range(2)] == [2, 0]
    kept = rows(book.store, PRIVATE_VALUE)
    assert {row["digest"] for row in kept} == before
    gone = [row for row in kept if row["removed_on"]]
    assert [(row["value"], row["salt"], row["removed_because"]) for row in gone] == [
        (None, None, "kept for 30 days")
    ] * 2
    assert [row["value"] for row in kept if row not in gone] == ["S. Hale"]
    assert (verify(book.store).problems, check(book.store).differences) == ((), ())
    client = site(book).client(book.officer)
    sheet = client.get(f"/leaks/{old}").text
    assert sheet.count("removed on 5 Apr 2026") >= 1
    assert ("J. Pen" in sheet, "S. Hale" in client.get(f"/leaks/{new}").text) == (False, True)


@pytest.fixture
def url(tmp_path, sqlite_template):
    address = f"sqlite:///{tmp_path}/book.db"
    (tmp_path / "book.db").write_bytes(sqlite_template.read_bytes())
    store = open_store(address)
    book = m.opened(store)
    named(book, "J. Penrose", came=datetime.now(UTC) - timedelta(days=31))
    named(book, "S. Hale", came=datetime.now(UTC) - timedelta(days=29))
    store.close()
    return address


def told(capsys, *words):
    assert cli.run(words) == 0
    return capsys.readouterr().out.strip()


def test_nothing_is_due_until_the_operator_has_said_how_long(url, capsys, monkeypatch):
    monkeypatch.delenv(PRIVATE_DAYS, raising=False)
    said = told(capsys, "privacy", "due", "--delete", "--database", url)
    assert said.startswith(f"Nothing is due: {PRIVATE_DAYS} is not set.")
    answer = json.loads(told(capsys, "privacy", "due", "--delete", "--database", url, "--json"))
    assert answer == {"days": None, "due": [], "removed": 0}


def test_it_says_what_is_due_and_never_the_value_and_removes_it_once(url, capsys, monkeypatch):
    monkeypatch.setenv(PRIVATE_DAYS, "30")
    command = ("privacy", "due", "--database", url)
    said = told(capsys, *command)
    assert "reporter_name: came in on " in said
    assert said.endswith("1 value is due to be removed")
    assert "Penrose" not in said
    assert told(capsys, *command, "--delete") == "1 value was removed"
    assert told(capsys, *command) == "0 values are due to be removed"
    assert json.loads(told(capsys, *command, "--delete", "--json")) == {"days": 30, "due": [], "removed": 0}
