"""Who is signed in: for how long, and by what it ends."""

from datetime import timedelta
from uuid import UUID

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.beside.credentials import signed_in
from repairlog.records.beside.sessions import Session, begin_session, end_session, session_held
from repairlog.records.beside.sign_ins import change_password, close_sign_in, make_sign_in
from repairlog.records.store import Store
from repairlog.records.tables.beside import SESSION
from tests.makers.book import RECEIVED as AT
from tests.makers.book import new_id
from tests.makers.copies import rows

IDLE = timedelta(hours=12)
SECOND, MINUTE = timedelta(seconds=1), timedelta(minutes=1)
PASSWORD = "a long night in the rain"


@pytest.fixture
def person(store: Store) -> UUID:
    id = read_id(new_id())
    make_sign_in(store, person=id, name="M. Aldous", password=PASSWORD, at=AT)
    return id


def is_in(store: Store, held: str, *, at=AT) -> bool:
    return signed_in(store, held, at=at, idle=IDLE) is not None


def test_what_the_browser_holds_says_who_is_signed_in_under_which_name_since_when(store: Store, person: UUID) -> None:
    held = begin_session(store, person=person, at=AT)
    with store.reading() as tx:
        found = session_held(tx, held, at=AT, idle=IDLE)
    assert found == Session(person=person, name="M. Aldous", began_at=AT, seen_at=AT)
    assert held.encode() not in bytes(rows(store, SESSION)[0]["digest"])


def test_what_was_never_given_out_is_nobody_s(store: Store, person: UUID) -> None:
    begin_session(store, person=person, at=AT)
    assert not is_in(store, "made up")


@pytest.mark.parametrize(("lay", "held_still"), [(IDLE - SECOND, True), (IDLE, True), (IDLE + SECOND, False)])
def test_a_sign_in_lies_unused_for_twelve_hours_and_no_longer(
    store: Store, person: UUID, lay: timedelta, held_still: bool
) -> None:
    held = begin_session(store, person=person, at=AT)
    assert is_in(store, held, at=AT + lay) is held_still


@pytest.mark.parametrize(("later", "seen"), [(5 * MINUTE, AT), (5 * MINUTE + SECOND, AT + 5 * MINUTE + SECOND)])
def test_when_it_was_last_used_is_written_down_to_five_minutes(
    store: Store, person: UUID, later: timedelta, seen: object
) -> None:
    held = begin_session(store, person=person, at=AT)
    assert is_in(store, held, at=AT + later)
    assert rows(store, SESSION)[0]["seen_at"] == seen


def test_using_it_keeps_it_and_takes_away_those_that_lay_too_long(store: Store, person: UUID) -> None:
    begin_session(store, person=person, at=AT - IDLE)
    held = begin_session(store, person=person, at=AT)
    assert is_in(store, held, at=AT + IDLE)
    assert is_in(store, held, at=AT + 2 * IDLE)
    assert len(rows(store, SESSION)) == 1


def test_signing_out_ends_that_one_alone(store: Store, person: UUID) -> None:
    one, other = (begin_session(store, person=person, at=AT) for _ in range(2))
    end_session(store, one)
    assert (is_in(store, one), is_in(store, other)) == (False, True)


def test_closing_a_sign_in_ends_its_sessions_at_once_and_no_others(store: Store, person: UUID) -> None:
    other = read_id(new_id())
    make_sign_in(store, person=other, name="D. Okoro", password=PASSWORD, at=AT)
    theirs, held = begin_session(store, person=other, at=AT), begin_session(store, person=person, at=AT)
    close_sign_in(store, "m. aldous", at=AT)
    assert (is_in(store, held), is_in(store, theirs)) == (False, True)


def test_a_session_that_began_while_its_sign_in_was_closed_holds_neither_now_nor_after_it_is_made_again(
    store: Store, person: UUID
) -> None:
    close_sign_in(store, "M. Aldous", at=AT)
    held = begin_session(store, person=person, at=AT)
    before = is_in(store, held)
    make_sign_in(store, person=person, name="M. Aldous", password=PASSWORD, at=AT)
    assert (before, is_in(store, held)) == (False, False)


def test_another_password_ends_the_sessions_of_the_old_one(store: Store, person: UUID) -> None:
    held = begin_session(store, person=person, at=AT)
    change_password(store, "M. Aldous", password="another long night")
    assert not is_in(store, held)


def test_whoever_only_reads_is_not_sent_away_because_others_write(sqlite_store: Store) -> None:
    store, id = sqlite_store, read_id(new_id())
    make_sign_in(store, person=id, name="M. Aldous", password=PASSWORD, at=AT)
    held = begin_session(store, person=id, at=AT)
    assert store.lock is not None
    store.lock._patience = 0.05
    with store.writing():
        assert is_in(store, held, at=AT + IDLE)
