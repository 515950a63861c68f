"""Where `repairlog demo` puts its book: whole or not at all, never over another, and nothing typed is lost."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import urllib.request
from datetime import UTC, date, datetime

import click
import pytest
from sqlalchemy import select

from repairlog import shipped
from repairlog.access import Actor
from repairlog.cli.demo import command, place
from repairlog.cli.demo.player import TooEarly, saves
from repairlog.entries.entry import Moments
from repairlog.entries.examples import AREA, CREW_LEADER
from repairlog.entries.ids import new_uuid7, read_id
from repairlog.intake import record
from repairlog.records.store import open_store
from repairlog.records.store.one_server import the_one_server
from repairlog.records.tables import beside, facts, journal
from repairlog.records.verify import head, verify
from tests.makers.command import process
from tests.makers.copies import rows
from tests.makers.demo import ADDRESS
from tests.makers.rulebooks import RULEBOOKS

DAY = "2026-11-20"
ON = date(2026, 11, 20)


def noted(url, text):
    """What a visitor types: a note on the area."""
    store = open_store(url, rulebooks=RULEBOOKS)
    try:
        raw = {"kind": "note", "id": str(new_uuid7(datetime.now(UTC))), "subject": AREA, "happened": DAY, "text": text}
        moments = Moments(received=datetime.now(UTC))
        record(store, [raw], actor=Actor(person=read_id(CREW_LEADER), sure="system"), moments=moments)
    finally:
        store.close()


def notes(url):
    store = open_store(url, rulebooks=RULEBOOKS)
    try:
        return {row["text"] for row in rows(store, facts.OF_KIND["note"])}
    finally:
        store.close()


def head_of(url):
    store = open_store(url, rulebooks=RULEBOOKS)
    try:
        return head(store)
    finally:
        store.close()


def lines_of(url):
    """Every sealed line but for its private digests, which are salted with chance."""
    store = open_store(url, rulebooks=RULEBOOKS)
    try:
        with store.reading() as tx:
            lines = tx.connection.execute(select(journal.JOURNAL.c.line).order_by(journal.JOURNAL.c.journal_index))
            return [{**json.loads(line), "private": None} for line in lines.scalars()]
    finally:
        store.close()


def test_it_fills_demo_db_in_that_folder_and_says_so_in_words(say, tmp_path):
    answer = say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path / "new"))
    assert (answer.code, answer.err) == (0, "")
    assert f"Database: sqlite:///{tmp_path}/new/demo.db\n" in answer.out
    assert "D. Okoro       demo ferry copper thistle   Supervisor          ES\n" in answer.out
    assert answer.out.count("demo heron bucket lantern") == 1
    assert {file.name for file in (tmp_path / "new").iterdir()} == {
        "demo.db",
        "demo.db.files",
        "demo.db.lock",
        "demo.db.serving",
    }


def test_a_demo_that_is_there_is_not_filled_again_without_being_served(say, sqlite_demo, tmp_path):
    before = head_of(sqlite_demo.url)
    answer = say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path))
    assert (answer.code, answer.out) == (2, "")
    told = f"{tmp_path}/demo.db is there already; --fresh moves it aside and makes a new one"
    assert answer.err.splitlines()[-1] == told
    assert head_of(sqlite_demo.url) == before


def test_a_demo_that_is_there_is_not_served_as_if_it_played_on_another_day(sqlite_demo, tmp_path):
    answer = process("demo", "--at", str(tmp_path), "--on", DAY, "--port", "0")  # which would serve, were it not so
    assert (answer.code, answer.out) == (2, "")
    assert f"{tmp_path}/demo.db is there already" in answer.err


def test_of_two_that_make_one_in_the_same_folder_one_does_and_the_other_says_that_it_is_there(tmp_path):
    call = [sys.executable, "-m", "repairlog.cli", "demo", "--no-serve", "--years", "0", "--at", str(tmp_path)]
    both = [subprocess.Popen(call, text=True, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) for _twin in range(2)]
    told = sorted((it.communicate(timeout=120)[1], it.returncode) for it in both)
    assert told[0] == ("", 0)
    assert (told[1][0].splitlines()[-1].startswith(f"{tmp_path}/demo.db is there already"), told[1][1]) == (True, 2)
    store = open_store(f"sqlite:///{tmp_path}/demo.db", rulebooks=RULEBOOKS)
    try:
        assert (verify(store).problems, len(rows(store, beside.SIGN_IN))) == ((), 9)
    finally:
        store.close()


def test_a_fresh_one_moves_the_old_one_aside_with_what_was_typed_in_it(say, sqlite_demo, tmp_path):
    noted(sqlite_demo.url, "typed by a visitor")
    aside = f"{tmp_path}/demo-{datetime.now(UTC).date()}.db"
    answer = say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path), "--fresh", "--json")
    assert (answer.code, answer.err) == (0, f"The demo that was there is now {aside}.\n")
    assert json.loads(answer.out)["database"] == sqlite_demo.url
    assert "typed by a visitor" in notes(f"sqlite:///{aside}")
    assert "typed by a visitor" not in notes(sqlite_demo.url)


def test_one_that_is_served_is_not_moved(say, sqlite_demo, tmp_path):
    before = head_of(sqlite_demo.url)
    with the_one_server(sqlite_demo.url):
        answer = say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path), "--fresh")
    assert answer.code == 2
    assert "Another process serves" in answer.err
    assert head_of(sqlite_demo.url) == before
    assert [file.name for file in tmp_path.iterdir() if file.suffix == ".db"] == ["demo.db"]


def made_in(folder, text=b"new"):
    """Make a demo there that is this text alone; the place to which the old one was moved comes back."""
    return place.make(folder, fill=lambda _url: (folder / "demo-making" / "demo.db").write_bytes(text), on=ON)


def databases_in(folder):
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.suffix == ".db"}


def test_each_that_is_moved_aside_gets_a_name_of_its_own_even_if_it_is_no_book(tmp_path):
    moved = [made_in(tmp_path, text) for text in (b"first", b"second", b"third")]
    assert moved == [None, tmp_path / "demo-2026-11-20.db", tmp_path / "demo-2026-11-20-2.db"]
    there = {"demo.db": b"third", "demo-2026-11-20.db": b"first", "demo-2026-11-20-2.db": b"second"}
    assert databases_in(tmp_path) == there


def test_one_that_another_program_has_open_is_not_moved(sqlite_demo, tmp_path):
    store = open_store(sqlite_demo.url, rulebooks=RULEBOOKS)
    try:
        before = head(store)
        with pytest.raises(click.UsageError) as told:
            made_in(tmp_path)
    finally:
        store.close()
    assert told.value.message == f"{tmp_path}/demo.db is open in another program; end that one first"
    assert head_of(sqlite_demo.url) == before


def test_a_filling_that_fails_leaves_what_was_there_and_nothing_else(tmp_path):
    (tmp_path / "demo.db").write_bytes(b"my notes")
    (tmp_path / "demo-making").mkdir()
    (tmp_path / "demo-making" / "demo.db").write_bytes(b"left by a process that was ended")

    def fill(url):
        assert url == f"sqlite:///{tmp_path}/demo-making/demo.db"
        assert list((tmp_path / "demo-making").iterdir()) == []
        (tmp_path / "demo-making" / "demo.db").write_bytes(b"half")
        raise OSError("no space left")

    with pytest.raises(OSError, match="no space left"):
        place.make(tmp_path, fill=fill, on=ON)
    assert databases_in(tmp_path) == {"demo.db": b"my notes"}
    assert not (tmp_path / "demo-making").exists()


def test_on_a_day_it_is_the_same_book_again(say, tmp_path):
    books = [tmp_path / "first", tmp_path / "second"]
    for folder in books:
        assert say("demo", "--no-serve", "--years", "0", "--at", str(folder), "--on", DAY).code == 0
    first, second = (lines_of(f"sqlite:///{folder}/demo.db") for folder in books)
    assert first == second
    assert max(line["moments"]["received"] for line in first) <= "2026-11-20T23:00:00.000Z"
    assert max(line["understood"]["happened_on"] for line in first) == DAY


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--on", "2026-10-06"), "the demo's fixed days run until 2026-10-28; give a later one with --on"),
        (("--on", "2999-01-01"), "2999-01-01 has not come yet; a demo plays today or before"),
        (("--on", "soon"), "Invalid value for '--on': 'soon' does not match the format '%Y-%m-%d'."),
        (
            ("--database", "sqlite:///x.db"),
            "--at and --fresh are about the file demo.db; leave them out with --database",
        ),
    ],
)
def test_what_cannot_be_asked_is_told_and_makes_nothing(say, tmp_path, words, told):
    answer = say("demo", "--no-serve", "--years", "0", "--at", str(tmp_path), *words)
    assert (answer.code, answer.out) == (2, "")
    assert told in answer.err
    assert [file.name for file in tmp_path.iterdir() if file.name != "demo.db.lock"] == []


@pytest.mark.parametrize(("hour", "is_played"), [(17, False), (18, True)])
def test_it_plays_from_the_last_of_its_fixed_moments_on(hour, is_played):
    at = datetime(2026, 10, 28, hour, tzinfo=UTC)  # the last is 14:00 in Eastmarsh, 18:00 UTC
    if is_played:
        assert max(save.when for save in saves(shipped.demo(), now=at, years=0)) <= at
    else:
        with pytest.raises(TooEarly):
            saves(shipped.demo(), now=at, years=0)


def test_a_database_that_holds_a_book_is_left_alone(say, made):
    before = head_of(made)
    answer = say("demo", "--no-serve", "--years", "0", "--database", made)
    assert (answer.code, answer.out) == (2, "")
    assert "there is a book in this database already; nothing was changed" in answer.err
    assert head_of(made) == before


def test_a_second_demo_serves_what_a_visitor_typed_and_its_new_tokens_work(sqlite_demo, tmp_path):
    noted(sqlite_demo.url, "typed by a visitor")
    before = head_of(sqlite_demo.url)
    answered, told = served("--at", str(tmp_path), "--json")
    assert (answered, json.loads(told)["database"]) == (200, sqlite_demo.url)
    assert "typed by a visitor" in notes(sqlite_demo.url)
    assert head_of(sqlite_demo.url) == before
    fresh = {each["token"] for each in json.loads(told)["sign_ins"]}
    assert len(fresh - {each["token"] for each in sqlite_demo.sign_ins}) == 9


def test_a_password_that_a_visitor_changed_and_a_sign_in_that_one_closed_are_not_told_any_more(
    say, sqlite_demo, tmp_path
):
    (tmp_path / "password").write_text("mine and nobody else's\n")
    change = ("sign-in", "password", "M. Aldous", "--password-file", str(tmp_path / "password"))
    for words in (change, ("sign-in", "close", "D. Okoro")):
        assert say(*words, "--database", sqlite_demo.url).code == 0
    _answered, told = served("--at", str(tmp_path), "--json")
    assert [each["name"] for each in json.loads(told)["sign_ins"]] == [
        "J. Feltham",
        "P. Lindqvist",
        "R. Tolland",
        "S. Wren",
        "H. Castellane",
        "B. Mossop",
        "A. Verrill",
    ]


def served(*words):
    """The status of the sign-in page while `demo` serves on a free port, and the first line that it printed."""
    call = [sys.executable, "-m", "repairlog.cli", "demo", "--years", "0", "--port", "0", *words]
    environment = {name: value for name, value in os.environ.items() if not name.startswith("REPAIRLOG_")}
    running = subprocess.Popen(call, env=environment, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    try:
        said = [running.stdout.readline() for _line in range(2)]
        with urllib.request.urlopen(ADDRESS.search(said[1])[0] + "/sign-in", timeout=30) as page:
            answered = page.status
    finally:
        running.send_signal(signal.SIGINT)
        rest, _none = running.communicate(timeout=60)
    assert (running.returncode, rest) == (0, ""), rest
    return answered, said[0]


def test_the_first_free_port_is_taken_from_8765_on():
    free = command.free_port()
    assert free == 0 or 8765 <= free <= 8864
    with socket.socket() as taken:
        taken.bind((command.HERE, free))
        taken.listen()
        assert command.free_port() > free
