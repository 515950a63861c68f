"""By what somebody comes in is ended for that person alone, whatever is asked under another's mark."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from uuid import UUID

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.beside.sessions import begin_session
from repairlog.records.beside.sign_ins import make_sign_in
from repairlog.records.beside.tokens import make_token, mark_of, token_shown
from repairlog.records.beside.ways_in import (
    WaysIn,
    end_everything,
    end_program,
    end_window,
    end_windows,
    how_many_in,
    mark_held,
    programs_of,
    windows_of,
)
from repairlog.records.store import Store
from tests.makers.book import RECEIVED as AT
from tests.makers.book import new_id

SECOND = timedelta(seconds=1)


@dataclass(frozen=True)
class Way:
    """A person with one browser and one token: what each holds."""

    person: UUID
    held: str
    token: str


@pytest.fixture
def ways(sqlite_store: Store) -> list[Way]:
    """Of two people."""
    made = []
    for name in ("M. Aldous", "D. Okoro"):
        person = read_id(new_id())
        make_sign_in(sqlite_store, person=person, name=name, password="a long night in the rain", at=AT)
        held = begin_session(sqlite_store, person=person, at=AT)
        made.append(Way(person, held, make_token(sqlite_store, person=person, what="the meter reader", at=AT)))
    return made


def left(store: Store, person: UUID) -> tuple[int, int]:
    """In how many browsers and by how many tokens that person comes in."""
    with store.reading() as tx:
        return len(windows_of(tx, person, since=AT)), len(programs_of(tx, person))


def test_a_browser_or_a_token_is_ended_by_its_mark_for_its_own_person_alone(
    sqlite_store: Store, ways: list[Way]
) -> None:
    mine, other = ways
    assert not end_window(sqlite_store, mine.person, mark=mark_held(other.held))
    assert not end_program(sqlite_store, mine.person, mark=mark_of(other.token), at=AT)
    assert [left(sqlite_store, each.person) for each in ways] == [(1, 1), (1, 1)]
    assert end_window(sqlite_store, mine.person, mark=mark_held(mine.held))
    assert end_program(sqlite_store, mine.person, mark=mark_of(mine.token), at=AT)
    assert [left(sqlite_store, each.person) for each in ways] == [(0, 0), (1, 1)]
    assert not end_program(sqlite_store, mine.person, mark=mark_of(mine.token), at=AT), "it is closed already"
    assert (token_shown(sqlite_store, mine.token), token_shown(sqlite_store, other.token) is None) == (None, False)


def test_whoever_is_signed_out_everywhere_stays_where_they_said_and_nobody_else_is(
    sqlite_store: Store, ways: list[Way]
) -> None:
    mine = ways[0]
    begin_session(sqlite_store, person=mine.person, at=AT)
    end_windows(sqlite_store, mine.person, but=mine.held)
    with sqlite_store.reading() as tx:
        assert [each.mark for each in windows_of(tx, mine.person, since=AT)] == [mark_held(mine.held)]
    end_windows(sqlite_store, mine.person)
    assert [left(sqlite_store, each.person) for each in ways] == [(0, 1), (1, 1)]


def test_a_lost_phone_ends_every_browser_and_token_of_its_person_alone(sqlite_store: Store, ways: list[Way]) -> None:
    end_everything(sqlite_store, ways[0].person, at=AT)
    assert [left(sqlite_store, each.person) for each in ways] == [(0, 0), (1, 1)]


@pytest.mark.parametrize(("since", "browsers"), [(AT - SECOND, 2), (AT, 2), (AT + SECOND, 0)])
def test_how_many_come_in_counts_browsers_used_since_and_tokens_not_closed(
    sqlite_store: Store, ways: list[Way], since: object, browsers: int
) -> None:
    end_program(sqlite_store, ways[0].person, mark=mark_of(ways[0].token), at=AT)
    with sqlite_store.reading() as tx:
        assert how_many_in(tx, since=since) == WaysIn(sign_ins=2, browsers=browsers, programs=1)
