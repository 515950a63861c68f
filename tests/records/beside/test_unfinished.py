"""What is typed and not saved yet: whose it is, how long it is kept, and what becomes of it."""

from datetime import timedelta
from typing import Any

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.beside.unfinished import (
    KEPT,
    Unfinished,
    keep,
    left_by,
    of_person,
    refused,
    send_back,
    throw_away,
    waiting_for,
)
from repairlog.records.store import Store
from tests.makers.book import RECEIVED, new_id

ONE, OTHER, LEAK = (read_id(new_id()) for _ in range(3))


def left(id: str, **also: Any) -> Unfinished:
    """A call of one person, left because it could not be read."""
    given = {"person": ONE, "because": "not_understood", "form": "entries", "raw": ["x"], "kept_at": RECEIVED} | also
    return Unfinished(id=read_id(id), **given)


def test_what_two_people_typed_under_one_id_is_kept_for_each(store: Store) -> None:
    id = new_id()
    keep(store, left(id, raw=["mine"], waits_for=frozenset({LEAK})))
    keep(store, left(id, raw=["theirs"], person=OTHER))
    assert [each.raw for person in (ONE, OTHER) for each in of_person(store, person)] == [["mine"], ["theirs"]]
    assert [each.person for each in waiting_for(store, [LEAK])] == [ONE]


def test_what_one_person_typed_again_stands_in_place_of_the_earlier(store: Store) -> None:
    id = new_id()
    keep(store, left(id, because="waits", waits_for=frozenset({LEAK})))
    keep(store, left(id, raw=["mended"]))
    assert [(each.because, each.raw) for each in of_person(store, ONE)] == [("not_understood", ["mended"])]
    assert waiting_for(store, [LEAK]) == []


def test_what_was_left_last_comes_first_and_no_more_than_is_asked_for(store: Store) -> None:
    ids = [new_id() for _ in range(3)]
    for id, minutes in zip(ids, (1, 3, 2), strict=True):
        keep(store, left(id, kept_at=RECEIVED + timedelta(minutes=minutes)))
    newest = [read_id(ids[place]) for place in (1, 2, 0)]
    assert [each.id for each in of_person(store, ONE)] == newest
    with store.reading() as tx:
        assert [each.id for each in left_by(tx, ONE, most=2)] == newest[:2]


def test_what_was_refused_is_sent_back_to_the_one_person_and_what_was_not_refused_to_nobody(
    sqlite_store: Store,
) -> None:
    id, unread = new_id(), new_id()
    for person in (ONE, OTHER):
        keep(sqlite_store, left(id, person=person, because="refused"))
    keep(sqlite_store, left(unread))
    for each in (id, unread):
        send_back(sqlite_store, read_id(each), person=ONE, by=LEAK, word="say who did it")
    assert {(each.id, each.because) for each in of_person(sqlite_store, ONE)} == {
        (read_id(id), "sent_back"),
        (read_id(unread), "not_understood"),
    }
    assert [(each.person, each.because) for each in refused(sqlite_store)] == [(OTHER, "refused")]
    throw_away(sqlite_store, read_id(id), person=ONE)
    assert [len(of_person(sqlite_store, person)) for person in (ONE, OTHER)] == [1, 1]


@pytest.mark.parametrize(
    ("age", "there"),
    [(KEPT - timedelta(days=1), True), (KEPT, True), (KEPT + timedelta(seconds=1), False)],
)
def test_what_was_typed_is_kept_ninety_days(store: Store, age: timedelta, there: bool) -> None:
    assert timedelta(days=90) == KEPT
    old = new_id()
    keep(store, left(old, kept_at=RECEIVED - age, waits_for=frozenset({LEAK})))
    keep(store, left(new_id()))
    assert (read_id(old) in [each.id for each in of_person(store, ONE)]) is there
    assert (len(waiting_for(store, [LEAK])) == 1) is there
