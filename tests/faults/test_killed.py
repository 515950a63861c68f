"""Killed in the middle of its work: whatever was acknowledged is there once, and the journal verifies.

Five kills in every run; REPAIRLOG_LONG=1 makes them twenty.
"""

from __future__ import annotations

import os
import secrets
import signal
import time

import pytest

from repairlog.entries.ids import uuid7
from repairlog.records.store import open_store
from repairlog.records.store.migrate import migrate
from repairlog.records.tables import facts, worked
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.verify import verify
from tests.makers import book, postgresql, serve
from tests.makers.copies import rows
from tests.makers.over_http import acknowledged
from tests.makers.program import token_of
from tests.makers.rulebooks import RULEBOOKS
from tests.makers.server_of_posts import ask, line_of, serving
from tests.makers.together import together

KILLS = 20 if os.environ.get("REPAIRLOG_LONG") else 5
THREADS = 4
PATIENCE = 60
"""Seconds within which the first receipts come."""


def acknowledged_until(process, *, after):
    """The receipts that the process wrote before it was no more: at least so many, then as many as came by the end.

    Ended by `after`, which is called once so many have come.
    """
    receipts = []
    while len(receipts) < 6:
        receipts += line_of(process)
    after()
    while receipt := line_of(process):
        receipts += receipt
    return receipts


def check_acknowledged(store, receipts):
    """Every receipt's entry stands once, at its index and leaf; the tree verifies; facts and worked rows go with it."""
    checked = verify(store)
    assert checked.problems == ()
    journal = rows(store, JOURNAL)
    assert len(journal) == checked.size
    stands = {str(row["id"]): [row["journal_index"], row["leaf"].hex()] for row in journal}
    assert {id: [index, leaf] for id, index, leaf, _number in receipts} == {
        id: stands.get(id) for id, _index, _leaf, _number in receipts
    }
    assert {row["id"] for row in rows(store, facts.ENTRY)} == {row["id"] for row in journal}
    numbers = {str(row["id"]): row["number"] for row in rows(store, worked.LEAK)}
    leaks = [(id, number) for id, _index, _leaf, number in receipts[::2]]
    assert leaks == [(id, numbers.get(id)) for id, _number in leaks]


def test_a_process_killed_while_it_posts_loses_nothing_that_it_acknowledged(database_url):
    store = open_store(database_url, rulebooks=RULEBOOKS)
    open_book = book.opened(store)
    receipts = []
    for turn in range(KILLS):
        with serving(database_url) as (process,):
            person = str(open_book.everyone.person)
            ask(process, threads=THREADS, many=True, area=open_book.area, person=person)
            receipts += acknowledged_until(process, after=lambda t=turn, p=process: (time.sleep(0.013 * t), p.kill()))
        check_acknowledged(store, receipts)
        open_book.say(book.leak(open_book))  # the book goes on at once: no lock is left behind
    assert len(receipts) >= 6 * KILLS
    store.close()


def posted_until_killed(server, *, area, token, after):
    """The receipts that programs got from a server that is killed, `after` seconds once so many have come."""
    receipts = []

    def program(_place):
        while told := acknowledged(server.address, leak_with_grade(area), token=token):
            receipts.extend([[r["id"], r["index"], r["leaf"], r["number"]] for r in told])

    def end(_place):
        deadline = time.monotonic() + PATIENCE
        while len(receipts) < 6 and time.monotonic() < deadline:
            time.sleep(0.01)
        time.sleep(after)
        server.process.kill()

    together(THREADS + 1, lambda place: (program if place else end)(place))
    return receipts


def leak_with_grade(area):
    """A call that nobody sent before."""
    id, of_grade = (str(uuid7(at=book.RECEIVED, random=secrets.token_bytes(10))) for _ in range(2))
    leak = {"kind": "leak_opened", "id": id, "area": area, "happened": "2026-03-05", "street": f"Lane {id[-2:]}"}
    return [leak, {"kind": "grade_set", "id": of_grade, "leak": id, "happened": "2026-03-05", "grade": "2"}]


def test_a_server_killed_under_load_loses_nothing_that_it_acknowledged(store):
    open_book = book.opened(store)
    token, receipts = token_of(store, open_book.crew), []
    for turn in range(KILLS):
        with serve.serving(store.engine.url.render_as_string(hide_password=False)) as running:
            receipts += posted_until_killed(running, area=open_book.area, token=token, after=0.013 * turn)
            assert running.process.wait(timeout=PATIENCE) == -signal.SIGKILL
        check_acknowledged(store, receipts)
    assert len(receipts) >= 6 * KILLS


@pytest.fixture
def durable_cluster():
    """A PostgreSQL of the test's own, with fsync as an operator runs it; one clear skip where none is to be had."""
    if postgresql.binaries() is None:
        pytest.skip(postgresql.NONE_HERE)
    with postgresql.running(durable=True) as cluster:
        yield cluster


def test_a_postgresql_stopped_at_once_loses_nothing_that_was_acknowledged(durable_cluster):
    cluster, receipts = durable_cluster, []
    migrate(cluster.url)
    store = open_store(cluster.url, rulebooks=RULEBOOKS)
    open_book = book.opened(store)
    try:
        for _ in range(KILLS):
            with serving(cluster.url) as (process,):
                person = str(open_book.everyone.person)
                ask(process, threads=THREADS, many=True, area=open_book.area, person=person)
                receipts += acknowledged_until(process, after=lambda c=cluster: postgresql.stop(c, how="immediate"))
            cluster = postgresql.restart(cluster)
            store.engine.dispose()
            check_acknowledged(store, receipts)
    finally:
        store.close()
        postgresql.stop(cluster)
    assert len(receipts) >= 6 * KILLS
