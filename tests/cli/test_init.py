"""`repairlog init` makes a new book whole, or says in a sentence why not and makes nothing."""

from __future__ import annotations

import shlex

import pytest

from repairlog.entries.operator import ROLES
from repairlog.records.beside.passwords import fits
from repairlog.records.beside.sign_ins import sign_in_named
from repairlog.records.rebuild import check
from repairlog.records.store import open_store
from repairlog.records.tables import facts, worked
from repairlog.records.verify import verify
from tests.makers.command import NEW_BOOK, at_a_terminal, process
from tests.makers.copies import copy_of, rows


def without(*names):
    """What makes a new book, but for these options."""
    pairs = list(zip(NEW_BOOK[::2], NEW_BOOK[1::2], strict=True))
    return [word for pair in pairs if pair[0] not in names for word in pair]


def book_at(url):
    """What stands in the book at that address."""
    store = open_store(url)
    try:
        area, person = rows(store, worked.AREA)[0], rows(store, facts.OF_KIND["person_added"])[0]
        operator = rows(store, facts.OF_KIND["operator_opened"])[0]
        roles = {(row["role"], row["area_id"]) for row in rows(store, facts.OF_ROWS["person_added", "roles"])}
        assert (check(store).differences, verify(store).problems) == ((), ())
        return {
            "operator": (operator["name"], operator["zone"]),
            "area": (area["name"], area["code"], area["zone"], area["elevation"]),
            "person": person["name"],
            "roles": roles,
        }
    finally:
        store.close()


OPEN = "The book of Saltmarsh Gas is open, with the area Eastmarsh (ES)."
NOBODY_YET = "Nobody can sign in yet, since no password was given: repairlog sign-in make 'R. Tolland'"
EVERY_ROLE = {(role, None) for role in ROLES if role != "inspector"}
# 1 ft is 0.3048 m exactly (international foot, NIST SP 811), so 5280 ft are 1609.344 m.
WHOLE = {
    "operator": ("Saltmarsh Gas", "America/Denver"),
    "area": ("Eastmarsh", "ES", "America/Denver", "1609.344 m"),
    "person": "R. Tolland",
    "roles": EVERY_ROLE,
}


def test_a_new_book_holds_its_operator_area_and_first_person_with_every_role(say, database_url):
    answer = say("init", *NEW_BOOK, "--database", database_url)
    assert (answer.code, answer.err) == (0, "")
    assert answer.out == f"{OPEN}\n{NOBODY_YET}\n"
    assert book_at(database_url) == WHOLE


@pytest.mark.parametrize("scheme", ["postgresql://", "postgresql+psycopg://"])
def test_both_spellings_of_a_postgresql_address_are_taken(say, postgresql_url, scheme):
    url = scheme + postgresql_url.split("://", 1)[1]
    assert say("init", *NEW_BOOK, "--database", url).code == 0
    assert book_at(url) == WHOLE


def test_the_tables_are_made_where_there_is_no_file_yet_in_a_folder_that_is_not_there_yet(say, tmp_path):
    url = f"sqlite:///{tmp_path}/new/er/book.db"
    assert say("init", *NEW_BOOK, "--database", url).code == 0
    assert book_at(url) == WHOLE


def test_what_is_not_given_is_asked_for_and_the_height_is_the_sea_s_unless_one_is_typed(tmp_path):
    typed = "Saltmarsh Gas\nEastmarsh\nes\nAmerica/Denver\n\nR. Tolland\n"
    url = f"sqlite:///{tmp_path}/book.db"
    answer = process("init", "--database", url, typed=typed)
    assert (answer.code, answer.err) == (0, "")
    for question in ("Name of the operator: ", "Time zone: ", "above the sea [0 ft]: ", "Your name: "):
        assert question in answer.out
    assert book_at(url) == WHOLE | {"area": ("Eastmarsh", "ES", "America/Denver", "0 m")}


def test_one_thing_that_is_not_given_is_asked_for_alone_and_again_where_the_answer_is_wrong(tmp_path):
    url = f"sqlite:///{tmp_path}/book.db"
    answer = process("init", *without("--zone"), "--database", url, typed="Denver\nAmerica/Denver\n")
    assert (answer.code, answer.out.count("Time zone: ")) == (0, 2)
    assert "'Denver' is no time zone" in answer.out + answer.err
    assert book_at(url) == WHOLE


def test_a_person_who_goes_away_from_a_question_leaves_nothing_behind(tmp_path):
    answer = process("init", "--database", f"sqlite:///{tmp_path}/book.db", typed="Saltmarsh Gas\n")
    assert (answer.code, list(tmp_path.iterdir())) == (2, [])
    assert answer.err.endswith("Stopped; nothing more was done.\n")


def test_without_an_address_the_book_lies_in_the_user_s_data_folder(tmp_path):
    # XDG Base Directory Specification: user data lies in $XDG_DATA_HOME.
    answer = process("init", *NEW_BOOK, XDG_DATA_HOME=str(tmp_path))
    assert (answer.code, answer.err) == (0, "")
    assert book_at(f"sqlite:///{tmp_path}/repairlog/repairlog.db") == WHOLE
    head = process("journal", "head", XDG_DATA_HOME=str(tmp_path))
    assert head.out.startswith("3:")


def test_the_environment_may_name_the_address(tmp_path):
    url = f"sqlite:///{tmp_path}/book.db"
    assert process("init", *NEW_BOOK, REPAIRLOG_DATABASE_URL=url).code == 0
    assert book_at(url) == WHOLE


WRONG = {
    "zone": ("--zone", "Denver", "Invalid value for '--zone': 'Denver' is no time zone; "),
    "zone-of-a-path": ("--zone", "../UTC", "Invalid value for '--zone': '../UTC' is no time zone; "),
    "code-with-a-sign": ("--area-code", "E-S", "Invalid value for '--area-code': 'E-S' is no code; "),
    "code-too-long": ("--area-code", "EASTMARSH", "Invalid value for '--area-code': 'EASTMARSH' is no code; "),
    "code-empty": ("--area-code", "", "Invalid value for '--area-code': '' is no code; "),
    "height-unread": ("--elevation", "high", "Invalid value for '--elevation': No single number can be read in “high”"),
    "height-without-unit": ("--elevation", "5280", "Invalid value for '--elevation': “5280” has no unit."),
    "height-of-space": ("--elevation", "900000 ft", "Invalid value for '--elevation': "),
    "operator-empty": ("--operator", " ", "Invalid value for '--operator': "),
    "operator-too-long": ("--operator", "S" * 201, "Invalid value for '--operator': "),
    "area-with-a-bell": ("--area", "East\x07marsh", "Invalid value for '--area': "),
    "person-empty": ("--admin-name", "", "Invalid value for '--admin-name': "),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_cannot_be_read_is_told_and_nothing_is_made(say, tmp_path, wrong):
    option, value, told = WRONG[wrong]
    answer = say("init", *without(option), option, value, "--database", f"sqlite:///{tmp_path}/new/book.db")
    assert (answer.code, answer.out, list(tmp_path.iterdir())) == (2, "", [])
    usage, _newline, sentence = answer.err.partition("\n")
    assert usage == "Usage: repairlog init [OPTIONS]"
    assert sentence.startswith(told)
    assert sentence.count("\n") == 1


def test_a_book_that_is_there_already_is_left_as_it_is(say, made):
    store = open_store(made)
    before = copy_of(store)
    answer = say("init", *without("--area"), "--area", "Highfold", "--database", made)
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.endswith("there is a book in this database already; nothing was changed\n")
    assert copy_of(store) == before
    store.close()


def fits_in(url, password, name="R. Tolland"):
    """Whether that name and password let somebody into the book at that address."""
    store = open_store(url)
    try:
        found = sign_in_named(store, name)
        assert found is None or rows(store, facts.OF_KIND["person_added"])[0]["id"] == found.person
        return found is not None and fits(password, found.password_hash)
    finally:
        store.close()


@pytest.mark.parametrize("content", ["a long night", "a long night\nin the rain\n", "\ufeffa long night\r\n"])
def test_the_first_line_of_the_file_is_the_first_person_s_password(say, database_url, tmp_path, content):
    (tmp_path / "password").write_bytes(content.encode())
    words = ("--admin-password-file", str(tmp_path / "password"), "--database", database_url)
    answer = say("init", *NEW_BOOK, *words)
    told = "R. Tolland signs in with that name and password; `repairlog serve` serves the pages."
    assert (answer.code, answer.out, answer.err) == (0, f"{OPEN}\n{told}\n", "")
    assert (fits_in(database_url, "a long night"), fits_in(database_url, "a long night\n")) == (True, False)


def test_a_password_may_be_piped_in_after_what_is_asked_for(tmp_path):
    url = f"sqlite:///{tmp_path}/book.db"
    words = (*without("--zone"), "--admin-password-file", "-", "--database", url)
    assert process("init", *words, typed="America/Denver\na long night\n").code == 0
    assert fits_in(url, "a long night")


def test_at_a_terminal_the_password_is_asked_for_twice_and_not_shown(tmp_path):
    url = f"sqlite:///{tmp_path}/book.db"
    told = at_a_terminal(
        "init", *NEW_BOOK, "--database", url, typed=["a long night", "a long day", *["a long night"] * 2]
    )
    assert "a long" not in told
    assert told.count("Password: ") == 2
    assert fits_in(url, "a long night")


UNFIT = {
    "too short": ("seven 7", "The password is too short. Choose one of at least 8 characters;"),
    "empty": ("", "The password is too short."),
    "too long": ("x" * 1001, "The password is too long. Choose one of at most 1000 characters."),
    "no text": (b"\xff\xfe a long night", "is no text in UTF-8"),
}


@pytest.mark.parametrize("unfit", UNFIT)
def test_a_password_that_cannot_be_one_is_told_before_anything_is_made(say, tmp_path, unfit):
    content, told = UNFIT[unfit]
    (tmp_path / "password").write_bytes(content if isinstance(content, bytes) else content.encode())
    words = ("--admin-password-file", str(tmp_path / "password"), "--database", f"sqlite:///{tmp_path}/new/book.db")
    answer = say("init", *NEW_BOOK, *words)
    assert (answer.code, answer.out, (tmp_path / "new").exists()) == (2, "", False)
    assert told in answer.err


def test_a_password_file_that_is_not_there_is_told_before_anything_is_made(say, tmp_path):
    words = ("--admin-password-file", str(tmp_path / "none"), "--database", f"sqlite:///{tmp_path}/new/book.db")
    answer = say("init", *NEW_BOOK, *words)
    assert (answer.code, answer.out, list(tmp_path.iterdir())) == (2, "", [])
    assert answer.err == f"{tmp_path}/none: No such file or directory\n"


def test_the_line_that_says_how_to_make_a_sign_in_later_can_be_typed_as_it_stands(say, made, tmp_path):
    (tmp_path / "password").write_text("a long night\n")
    words = shlex.split(NOBODY_YET.partition("repairlog ")[2])
    before = fits_in(made, "a long night")
    assert say(*words, "--password-file", str(tmp_path / "password"), "--database", made).code == 0
    assert (before, fits_in(made, "a long night")) == (False, True)
