"""Tokens and secrets: shown once, kept as digests, closed for good; one secret for all who serve a book."""

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.beside.secret import secret
from repairlog.records.beside.tokens import (
    Listed,
    Token,
    TokenUnknown,
    close_token,
    make_token,
    mark_of,
    token_shown,
    tokens,
)
from repairlog.records.store import Store, open_store
from tests.makers.book import RECEIVED as AT
from tests.makers.book import new_id
from tests.makers.together import together

ONE = read_id(new_id())


def test_a_token_says_in_whose_name_a_program_sends_until_it_is_closed(store: Store) -> None:
    shown, other = (make_token(store, person=ONE, what="the old list", at=AT) for _ in range(2))
    before = token_shown(store, shown)
    close_token(store, mark_of(shown), at=AT)
    assert (before, token_shown(store, shown)) == (Token(person=ONE, made_at=AT), None)
    assert token_shown(store, other) == before


def test_every_token_is_listed_by_its_mark_closed_ones_too(store: Store) -> None:
    shown = make_token(store, person=ONE, what="the old list", at=AT)
    close_token(store, mark_of(shown), at=AT)
    (listed,) = tokens(store)
    assert listed == Listed(mark=mark_of(shown), person=ONE, what="the old list", made_at=AT, closed_at=AT)
    assert (len(listed.mark), listed.mark in shown) == (12, False)


@pytest.mark.parametrize("mark", ["", "0", "0123456789ab"])
def test_a_mark_of_no_open_token_closes_none(store: Store, mark: str) -> None:
    shown = make_token(store, person=ONE, what="the old list", at=AT)
    with pytest.raises(TokenUnknown):
        close_token(store, mark, at=AT)
    with pytest.raises(TokenUnknown):
        close_token(store, mark_of(shown)[:11], at=AT)
    close_token(store, mark_of(shown), at=AT)
    with pytest.raises(TokenUnknown):
        close_token(store, mark_of(shown), at=AT)


def test_all_who_ask_for_a_new_secret_at_one_moment_get_the_same(store: Store, database_url: str) -> None:
    other = open_store(database_url)
    got = together(16, lambda place: secret((store, other)[place % 2], "cookies"))
    other.close()
    assert set(got) == {secret(store, "cookies")}
    assert (len(got[0]), secret(store, "cookies") != secret(store, "failed_sign_ins")) == (32, True)
