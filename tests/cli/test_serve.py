"""`repairlog serve`: it tells its address once it answers, ends in good order, and one alone serves a file."""

from __future__ import annotations

import fcntl
import http.client
import os
import signal
import sys
import threading
import time
from pathlib import Path

import pytest

from repairlog.records.beside.failed_sign_ins import Trying, _keys
from repairlog.records.store import open_store
from repairlog.records.tables.beside import FAILED_SIGN_IN
from tests.makers.cells import do
from tests.makers.copies import rows
from tests.makers.postgresql import free_port
from tests.makers.serve import Server, serving
from tests.makers.trial import forms_of

OK = (200, "ok\n")


@pytest.mark.parametrize("sign", [signal.SIGTERM, signal.SIGINT])
def test_it_prints_its_address_once_it_answers_and_ends_in_good_order(made, sign):
    with serving(made) as server:
        assert (server.get("/healthy"), server.address) == (OK, f"http://127.0.0.1:{server.port}/")
        assert "Sign in" in server.get("/sign-in")[1]
        assert server.end(sign) == (0, "", "")


def test_of_more_than_the_server_reads_at_all_the_application_tells_on_its_own_page(made_on_sqlite):
    with serving(made_on_sqlite) as server:
        asking = http.client.HTTPConnection("127.0.0.1", server.port, timeout=20)
        asking.putrequest("POST", "/sign-in")
        asking.putheader("Content-Length", str(10**10))
        asking.endheaders()
        answer = asking.getresponse()
        told = answer.read().decode()
        asking.close()
    assert (answer.status, "script-src 'self'" in answer.headers["Content-Security-Policy"]) == (413, True)
    assert "<h1>That is more than one request may bring.</h1>" in told


def test_a_second_server_on_the_same_file_is_refused_under_any_name(say, made_on_sqlite, tmp_path):
    (tmp_path / "other.db").symlink_to(tmp_path / "repairlog.db")
    with serving(made_on_sqlite) as server:
        for url in (
            made_on_sqlite,
            f"sqlite:///{tmp_path}/other.db",
            f"sqlite:///{tmp_path}/../{tmp_path.name}/repairlog.db",
        ):
            answer = say("serve", "--port", "0", "--database", url)
            assert (answer.code, answer.out, answer.err.count("\n")) == (2, "", 1)
            assert answer.err.startswith("Another process serves ")
        assert server.get("/healthy") == OK


def test_two_servers_on_one_database_of_postgresql_both_answer(made_on_postgresql):
    with serving(made_on_postgresql) as one, serving(made_on_postgresql) as other:
        assert (one.get("/healthy"), other.get("/healthy")) == (OK, OK)


def test_after_the_server_was_killed_another_serves_at_once(made_on_sqlite):
    with serving(made_on_sqlite) as server:
        assert server.end(signal.SIGKILL)[0] == -signal.SIGKILL
    with serving(made_on_sqlite) as again:
        assert again.get("/healthy") == OK


def test_several_processes_answer_on_postgresql_and_all_end_with_the_first(made_on_postgresql):
    with serving(made_on_postgresql, "--processes", "2") as server:
        one, other = server.workers()
        assert answers_without(server, one)
        assert answers_without(server, other)
        code, out, _err = server.end(signal.SIGTERM)
        assert (code, out) == (0, "")
        assert not any(Path(f"/proc/{pid}").exists() for pid in (one, other))


def answers_without(server: Server, worker: int) -> bool:
    """Whether the others answer while that process stands still."""
    os.kill(worker, signal.SIGSTOP)
    try:
        return [server.get("/healthy") for _ in range(3)] == [OK] * 3
    finally:
        os.kill(worker, signal.SIGCONT)


def test_ctrl_c_ends_several_processes_in_good_order(made_on_postgresql):
    with serving(made_on_postgresql, "--processes", "2") as server:
        assert server.end(signal.SIGINT)[:2] == (0, "")


def test_several_processes_on_an_sqlite_file_are_refused_in_a_sentence(say, made_on_sqlite):
    answer = say("serve", "--processes", "2", "--database", made_on_sqlite)
    told = "A book in an SQLite file is served by one process; 2 were asked for."
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == f"{told} Leave --processes out, or keep the book in PostgreSQL.\n"


def test_several_processes_without_what_they_need_say_what_to_install(say, made_on_postgresql, monkeypatch):
    monkeypatch.setitem(sys.modules, "gunicorn", None)  # as where it is not installed
    answer = say("serve", "--processes", "2", "--port", "0", "--database", made_on_postgresql)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == "What this needs is not installed. Install it: pip install 'repairlog[serve]'.\n"


def test_a_port_that_is_taken_is_told_in_a_sentence(say, made_on_sqlite, postgresql_server):
    port = postgresql_server.rpartition(":")[2].partition("/")[0]
    answer = say("serve", "--port", port, "--database", made_on_sqlite)
    told = f"Nobody can listen on port {port} of this machine: Address already in use."
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == f"{told} Give another with --port, or 0 for any that is free.\n"


def test_a_server_that_could_not_listen_does_not_hold_the_file(say, made_on_sqlite, postgresql_server):
    say("serve", "--port", postgresql_server.rpartition(":")[2].partition("/")[0], "--database", made_on_sqlite)
    with serving(made_on_sqlite) as server:
        assert server.get("/healthy") == OK


@pytest.mark.parametrize(
    "words", [("--port", "65536"), ("--port", "http"), ("--processes", "0"), ("--processes", "65")]
)
def test_a_number_that_is_none_of_a_port_or_of_processes_is_refused(say, made_on_sqlite, words):
    answer = say("serve", *words, "--database", made_on_sqlite)
    assert (answer.code, answer.out) == (2, "")
    assert f"Invalid value for '{words[0]}'" in answer.err


def test_a_port_that_is_named_is_the_one(made_on_sqlite):
    port = free_port()
    with serving(made_on_sqlite, "--port", str(port)) as server:
        assert server.port == port


def test_a_setting_that_cannot_be_read_is_told_before_anything_is_served(say, made_on_sqlite, monkeypatch):
    monkeypatch.setenv("REPAIRLOG_HTTPS", "perhaps")
    answer = say("serve", "--database", made_on_sqlite)
    assert (answer.code, answer.err.count("\n")) == (2, 1)
    assert "REPAIRLOG_HTTPS" in answer.err


def test_who_probes_is_told_while_it_runs_that_the_book_cannot_be_read(made):
    with serving(made) as server:
        store = open_store(made)
        do(store, "DROP TABLE alembic_version")
        store.close()
        assert server.get("/healthy")[0] == 503


class Browser:
    """As much of a browser as signing in needs, over a connection of its own."""

    def __init__(self, server: Server, **headers: str) -> None:
        self.asking = http.client.HTTPConnection("127.0.0.1", server.port, timeout=60)
        self.asking.request("GET", "/sign-in", headers=headers)
        page = self.asking.getresponse()
        self.headers = {**headers, "Cookie": page.headers["Set-Cookie"].partition(";")[0]}
        self.token = dict(forms_of(page.read().decode())["/sign-in"])["csrf_token"]

    def guess(self) -> int:
        body = f"csrf_token={self.token}&name=nobody&password=guess"
        headers = {**self.headers, "Connection": "close", "Content-Type": "application/x-www-form-urlencoded"}
        self.asking.request("POST", "/sign-in", body=body, headers=headers)
        answer = self.asking.getresponse()
        answer.read()
        return answer.status


@pytest.mark.parametrize("processes", ["1", "2"])
@pytest.mark.parametrize(("https", "from_where"), [("yes", "203.0.113.7"), ("no", "127.0.0.1")])
def test_what_a_proxy_says_comes_through_where_there_is_one(made_on_postgresql, processes, https, from_where):
    said = {"X-Forwarded-For": "203.0.113.7", "X-Forwarded-Proto": "https", "X-Forwarded-Host": "book.example"}
    with serving(made_on_postgresql, "--processes", processes, REPAIRLOG_HTTPS=https) as server:
        assert Browser(server, **said, Referer="https://book.example/sign-in").guess() == 403
    store = open_store(made_on_postgresql)
    counted = {row["key"] for row in rows(store, FAILED_SIGN_IN)}
    assert counted == set(_keys(store, Trying(name="nobody", address=from_where)))
    store.close()


def test_what_is_being_answered_when_it_is_told_to_end_is_answered_first(made_on_sqlite, tmp_path):
    with serving(made_on_sqlite) as server, (tmp_path / "repairlog.db.lock").open("a") as lock:
        browser, answers = Browser(server), []
        fcntl.flock(lock, fcntl.LOCK_EX)  # so that counting the failure waits
        asking = threading.Thread(target=lambda: answers.append(browser.guess()))
        asking.start()
        time.sleep(1)
        threading.Timer(1, fcntl.flock, (lock, fcntl.LOCK_UN)).start()
        assert server.end(signal.SIGTERM)[0] == 0
        asking.join(60)
    assert answers == [403]
