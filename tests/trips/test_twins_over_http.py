"""The same call from many programs at one moment, and many calls on one leak, over HTTP to servers as an operator runs
them: each is recorded once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from typing import Any

import pytest

from repairlog.records.store import Store
from repairlog.records.tables import worked
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.verify import verify
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.over_http import Answer, post
from tests.makers.program import token_of
from tests.makers.serve import serving
from tests.makers.together import together

COPIES = 16
WRITERS = 8


@dataclass(frozen=True)
class Operator:
    """An open book, the addresses of the servers on it, and a token of the book's crew."""

    book: m.Book
    addresses: list[str]
    token: str

    def post(self, place: int, *entries: dict[str, Any]) -> Answer:
        """Post as the program of that number, to the server whose turn it is."""
        return post(self.addresses[place % len(self.addresses)], list(entries), token=self.token)


@contextmanager
def operator(store: Store) -> Iterator[Operator]:
    """Two servers on PostgreSQL, one on SQLite."""
    book = m.opened(store)
    url = store.engine.url.render_as_string(hide_password=False)
    with ExitStack() as servers:
        count = 1 if store.dialect == "sqlite" else 2
        addresses = [servers.enter_context(serving(url)).address for _ in range(count)]
        yield Operator(book, addresses, token_of(store, book.crew))


@pytest.fixture
def running(store: Store) -> Iterator[Operator]:
    """The same, for a test."""
    with operator(store) as found:
        yield found


def test_sixteen_copies_of_a_call_get_the_same_receipts_and_stand_once(running: Operator) -> None:
    leak = m.leak(running.book, reporter_name="J. Thwaite")
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "lot": running.book.lot}])
    call = [leak, attempt, m.test_of(leak["id"], attempt["id"])]
    before = len(rows(running.book.store, JOURNAL))
    answers = together(COPIES, lambda place: running.post(place, *call))
    assert sorted(answer.status for answer in answers) == [200] * 15 + [201]
    assert [answer.told for answer in answers] == [answers[0].told] * COPIES
    assert [receipt["index"] for receipt in answers[0].receipts] == list(range(before, before + 3))
    stands = rows(running.book.store, JOURNAL)[before:]
    assert [str(row["id"]) for row in stands] == [entry["id"] for entry in call]
    assert verify(running.book.store).problems == ()


def test_of_sixteen_that_say_different_things_under_one_id_one_is_recorded(running: Operator) -> None:
    leak = m.leak(running.book)
    before = len(rows(running.book.store, JOURNAL))
    answers = together(COPIES, lambda place: running.post(place, leak | {"house_number": str(place + 1)}))
    assert sorted(answer.status for answer in answers) == [201] + [409] * 15
    first = next(place for place, answer in enumerate(answers) if answer.status == 201)
    told = [(each.told["stands"], each.told["came"]) for each in answers if each.status == 409]
    assert {stands["said"]["house_number"] for stands, _came in told} == {str(first + 1)}
    numbers = {came["said"]["house_number"] for _stands, came in told}
    assert numbers == {str(place + 1) for place in range(COPIES) if place != first}
    assert len(rows(running.book.store, JOURNAL)) == before + 1


def test_eight_writers_on_one_leak_number_their_attempts_one_to_eight(running: Operator) -> None:
    leak = m.leak(running.book)
    assert running.post(0, leak).status == 201
    attempts = [m.attempt(leak["id"], happened=f"2026-03-05 10:{minute:02}") for minute in range(WRITERS)]
    answers = together(WRITERS, lambda place: running.post(place, attempts[place]))
    assert [answer.status for answer in answers] == [201] * WRITERS
    numbers = {str(row["id"]): row["number"] for row in rows(running.book.store, worked.ATTEMPT)}
    assert numbers == {attempt["id"]: number for number, attempt in enumerate(attempts, start=1)}
    assert verify(running.book.store).problems == ()
