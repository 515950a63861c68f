"""`repairlog sign-in`: whoever runs the machine lets people in, and out again."""

from __future__ import annotations

from datetime import timedelta

import pytest

from repairlog.clock import now
from repairlog.records.beside.credentials import signed_in
from repairlog.records.beside.passwords import fits
from repairlog.records.beside.sessions import begin_session
from repairlog.records.beside.sign_ins import sign_in_named
from repairlog.records.store import open_store
from tests.makers import book as m
from tests.makers.command import at_a_terminal

PASSWORD = "a long night in the rain"


@pytest.fixture
def at(database_url, tmp_path):
    """The address of a book with four people, one of them twice by name, and a password in a file."""
    store = open_store(database_url)
    m.opened(store).say(
        {"kind": "person_added", "id": m.new_id(), "name": "D. Okoro", "company": "Fenwick", "happened": "2026-01-02"}
    )
    store.close()
    (tmp_path / "password").write_text(PASSWORD + "\n")
    return ("--database", database_url)


def found(at, name):
    store = open_store(at[1])
    try:
        return sign_in_named(store, name)
    finally:
        store.close()


def make(say, at, tmp_path, *words):
    return say("sign-in", "make", *words, "--password-file", str(tmp_path / "password"), *at)


def test_a_person_on_the_books_signs_in_under_a_name_of_their_own_choice(say, at, tmp_path):
    answer = make(say, at, tmp_path, "mara", "--person", "m. aldous")
    assert (answer.code, answer.out, answer.err) == (0, "M. Aldous signs in as mara.\n", "")
    assert fits(PASSWORD, found(at, "MARA").password_hash)


def test_where_no_person_is_named_it_is_the_one_of_that_very_name(say, at, tmp_path):
    assert make(say, at, tmp_path, "R. Tolland").out == "R. Tolland signs in as R. Tolland.\n"


def test_of_several_people_of_one_name_the_id_says_who_is_meant(say, at, tmp_path):
    unclear = make(say, at, tmp_path, "D. Okoro")
    assert (unclear.code, unclear.out, found(at, "D. Okoro")) == (2, "", None)
    assert unclear.err.startswith("Several people on the books are named “D. Okoro”: ")
    first, second = unclear.err.partition("”: ")[2].partition(". Give the id")[0].split("; ")
    id, company = next(each.split(", ") for each in (first, second) if "Fenwick" in each)
    assert (company, make(say, at, tmp_path, "okoro", "--person", id).code) == ("Fenwick", 0)
    assert str(found(at, "okoro").person) == id


WRONG = {
    "nobody": (("J. Moss",), "Nobody on the books is named “J. Moss”, or has that id. "),
    "no such id": (
        ("x", "--person", "019cb4d0-1180-7abc-9def-000000000001"),
        "Nobody on the books is named “019cb4d0-1180-7abc-9def-000000000001”, or has that id. ",
    ),
    "no name": ((" ", "--person", "M. Aldous"), "a name to sign in with has 1 to 200 characters"),
    "no text": (("M.\udcff", "--person", "M. Aldous"), "a name to sign in with has 1 to 200 characters"),
    "no person": (("mara", "--person", "M.\udcff"), "Nobody on the books is named “M.?”, or has that id. "),
    "too long": (("x" * 201, "--person", "M. Aldous"), "a name to sign in with has 1 to 200 characters"),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_names_nobody_lets_nobody_in(say, at, tmp_path, wrong):
    words, told = WRONG[wrong]
    answer = make(say, at, tmp_path, *words)
    assert (answer.code, answer.out, told in answer.err) == (2, "", True)


def test_a_name_that_is_taken_and_a_person_who_signs_in_already_are_told(say, at, tmp_path):
    make(say, at, tmp_path, "M. Aldous")
    for words in (("m. aldous", "--person", "R. Tolland"), ("mara", "--person", "M. Aldous")):
        answer = make(say, at, tmp_path, *words)
        assert (answer.code, answer.out) == (2, "")
        assert answer.err.endswith("Choose another name to sign in with.\n")


def test_where_there_is_no_terminal_a_password_comes_from_a_file(say, at):
    answer = say("sign-in", "make", "M. Aldous", *at)
    assert (answer.code, found(at, "M. Aldous")) == (2, None)
    assert answer.err.endswith("no terminal to ask for the password at; give it with --password-file\n")


def test_at_a_terminal_the_password_is_asked_for(at):
    told = at_a_terminal("sign-in", "make", "M. Aldous", *at, typed=[PASSWORD, PASSWORD])
    assert PASSWORD not in told
    assert fits(PASSWORD, found(at, "M. Aldous").password_hash)


def is_in(at, held):
    store = open_store(at[1])
    try:
        return signed_in(store, held, at=now(), idle=timedelta(hours=1)) is not None
    finally:
        store.close()


@pytest.fixture
def held(say, at, tmp_path):
    """What a browser holds in which M. Aldous is signed in."""
    make(say, at, tmp_path, "M. Aldous")
    store = open_store(at[1])
    held = begin_session(store, person=sign_in_named(store, "M. Aldous").person, at=now())
    store.close()
    return held


def test_another_password_signs_out_whoever_is_in_by_the_old_one(say, at, tmp_path, held):
    (tmp_path / "other").write_text("another long night")
    before = is_in(at, held)
    answer = say("sign-in", "password", "m. aldous", "--password-file", str(tmp_path / "other"), *at)
    assert (answer.code, answer.out) == (0, "m. aldous has another password, and is signed out everywhere.\n")
    assert (before, is_in(at, held)) == (True, False)
    assert fits("another long night", found(at, "M. Aldous").password_hash)


def test_a_closed_sign_in_is_signed_out_and_lets_nobody_in_until_it_is_made_again(say, at, tmp_path, held):
    before = is_in(at, held)
    answer = say("sign-in", "close", "m. aldous", *at)
    assert (answer.code, answer.out) == (0, "m. aldous is closed, and signed out everywhere.\n")
    assert (before, is_in(at, held), found(at, "M. Aldous").closed) == (True, False, True)
    assert make(say, at, tmp_path, "M. Aldous").code == 0
    assert (is_in(at, held), found(at, "M. Aldous").closed) == (False, False)


@pytest.mark.parametrize("words", [("close", "nobody"), ("close", "M.\udcff"), ("password", "nobody")])
def test_a_sign_in_that_is_not_there_is_told_before_a_password_is_asked_for(say, at, words):
    answer = say("sign-in", *words, *at)
    assert (answer.code, answer.out, "There is no open sign-in “" in answer.err) == (2, "", True)
