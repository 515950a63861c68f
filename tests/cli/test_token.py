"""`repairlog token`: what programs show, made for a person, shown once, listed by its mark, closed."""

from __future__ import annotations

import json

import pytest

from repairlog.clock import now
from repairlog.records.beside.tokens import token_shown
from repairlog.records.store import open_store
from tests.makers import book as m


@pytest.fixture
def at(database_url):
    """The address of a book with four people."""
    store = open_store(database_url)
    m.opened(store)
    store.close()
    return ("--database", database_url)


def whose(at, shown):
    store = open_store(at[1])
    try:
        return token_shown(store, shown)
    finally:
        store.close()


def test_a_token_is_all_that_is_printed_so_that_it_can_be_piped_and_the_rest_is_told_beside(say, at):
    answer = say("token", "make", "M. Aldous", "--for", "truck Heron", *at)
    (shown,) = answer.out.split()
    assert (answer.code, answer.out) == (0, shown + "\n")
    assert answer.err.startswith("It is shown this once; it sends as M. Aldous. `repairlog token close ")
    assert whose(at, shown) is not None


def test_as_json_a_token_is_made_listed_and_closed(say, at):
    made = json.loads(say("token", "make", "m. aldous", "--for", " truck Heron ", "--json", *at).out)
    assert made == {"token": made["token"], "mark": made["mark"], "person": "M. Aldous", "what": "truck Heron"}
    (listed,) = json.loads(say("token", "list", "--json", *at).out)
    assert say("token", "close", made["mark"], *at).out == f"The token {made['mark']} is closed.\n"
    (closed,) = json.loads(say("token", "list", "--json", *at).out)
    rest = {name: made[name] for name in ("mark", "person", "what")}
    assert listed == {**rest, "made_at": listed["made_at"], "closed_at": None}
    assert closed == {**listed, "closed_at": closed["closed_at"]}
    assert closed["closed_at"][:10] in (now().date().isoformat(), listed["made_at"][:10])
    assert whose(at, made["token"]) is None


def test_every_token_is_a_line_and_none_is_a_line_too(say, at):
    assert say("token", "list", *at).out == (
        "There are no tokens yet. `repairlog token make NAME --for WHAT` makes one.\n"
    )
    made = json.loads(say("token", "make", "M. Aldous", "--for", "truck Heron", "--json", *at).out)
    line = say("token", "list", *at).out
    assert (line.startswith(made["mark"]), line.endswith("  open  M. Aldous: truck Heron\n")) == (True, True)
    assert made["token"] not in line


WRONG = {
    "nobody": (("make", "J. Moss", "--for", "x"), "Nobody on the books is named “J. Moss”"),
    "for nothing": (("make", "M. Aldous", "--for", " "), "say in 1 to 200 characters what it is for"),
    "for a bell": (("make", "M. Aldous", "--for", "a\x07b"), "say in 1 to 200 characters what it is for"),
    "for what": (("make", "M. Aldous"), "Missing option '--for'"),
    "no text": (("close", "\udcff"), "No open token has the mark “?”."),
    "no mark": (("close", "0123456789ab"), "No open token has the mark “0123456789ab”."),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_cannot_be_done_is_told_and_nothing_is_made(say, at, wrong):
    words, told = WRONG[wrong]
    answer = say("token", *words, *at)
    assert (answer.code, answer.out, told in answer.err) == (2, "", True)
    assert say("token", "list", "--json", *at).out == "[]\n"
