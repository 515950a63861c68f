"""Sign-ins: one a person, one a name, closed for good; passwords kept as nobody can read them."""

import pytest

from repairlog.entries.ids import read_id
from repairlog.records.beside.passwords import PasswordUnfit, demand_fit, fits, hashed
from repairlog.records.beside.sessions import begin_session
from repairlog.records.beside.sign_ins import (
    NameTaken,
    SignIn,
    SignInUnknown,
    change_password,
    close_sign_in,
    make_sign_in,
    sign_in_named,
)
from repairlog.records.store import Store
from repairlog.records.tables.beside import SESSION
from tests.makers.book import RECEIVED as AT
from tests.makers.book import new_id
from tests.makers.copies import rows
from tests.makers.together import together

ONE, OTHER = (read_id(new_id()) for _ in range(2))
PEOPLE = [new_id() for _ in range(8)]
PASSWORD = "a long night in the rain"


def made(store: Store, *, person=ONE, name="M. Aldous", password=PASSWORD) -> None:
    make_sign_in(store, person=person, name=name, password=password, at=AT)


def test_a_sign_in_is_found_however_its_name_is_written_and_shown_as_it_was_made(store: Store) -> None:
    made(store, name=" M.  Aldous ")
    found = sign_in_named(store, "m. ALDOUS")
    assert found == SignIn(person=ONE, name="M. Aldous", password_hash=found.password_hash, closed=False)
    assert fits(PASSWORD, found.password_hash)


@pytest.mark.parametrize("name", ["D. Okoro", "", "M.\0Aldous", "M. Aldous\0", "\ud800"])
def test_a_name_that_nobody_has_is_nobody_s_on_either_database(store: Store, name: str) -> None:
    made(store)
    assert sign_in_named(store, name) is None


@pytest.mark.parametrize("name", ["M.\u00a0Aldous", "Zo\u00eb", "\u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645"])
def test_a_name_of_any_script_signs_in(store: Store, name: str) -> None:
    made(store, name=name)
    assert sign_in_named(store, name).person == ONE


@pytest.mark.parametrize(("person", "name"), [(OTHER, "m.  aldous"), (ONE, "D. Okoro")])
def test_neither_a_name_nor_a_person_signs_in_twice(store: Store, person: object, name: str) -> None:
    made(store)
    with pytest.raises(NameTaken):
        made(store, person=person, name=name)


def test_of_eight_who_take_one_name_at_one_moment_one_has_it(store: Store) -> None:
    def make(place: int) -> bool:
        try:
            made(store, person=read_id(PEOPLE[place]))
        except NameTaken:
            return False
        return True

    assert sorted(together(8, make)) == [False] * 7 + [True]


def test_who_could_not_have_another_name_is_not_signed_out(store: Store) -> None:
    made(store)
    begin_session(store, person=ONE, at=AT)
    with pytest.raises(NameTaken):
        made(store, name="D. Okoro")
    assert len(rows(store, SESSION)) == 1


def test_another_password_takes_the_place_of_the_old_one(store: Store) -> None:
    made(store)
    change_password(store, "m. aldous", password="another long night")
    kept = sign_in_named(store, "M. Aldous").password_hash
    assert (fits(PASSWORD, kept), fits("another long night", kept)) == (False, True)


def test_a_closed_sign_in_is_there_as_closed_and_takes_no_password(store: Store) -> None:
    made(store)
    close_sign_in(store, "M. Aldous", at=AT)
    assert sign_in_named(store, "M. Aldous").closed
    with pytest.raises(SignInUnknown):
        change_password(store, "M. Aldous", password=PASSWORD)
    with pytest.raises(SignInUnknown):
        close_sign_in(store, "M. Aldous", at=AT)


def test_the_person_of_a_closed_sign_in_may_have_a_new_one_and_another_may_not_have_its_name(store: Store) -> None:
    made(store)
    close_sign_in(store, "M. Aldous", at=AT)
    with pytest.raises(NameTaken):
        made(store, person=OTHER)
    made(store, name="Mara Aldous")
    assert (sign_in_named(store, "M. Aldous"), sign_in_named(store, "Mara Aldous").closed) == (None, False)


@pytest.mark.parametrize(("length", "code"), [(7, "password_too_short"), (8, ""), (9, ""), (1000, "")])
def test_a_password_has_eight_characters_at_the_least(length: int, code: str) -> None:
    assert told("x" * length) == code


@pytest.mark.parametrize(("length", "code"), [(1000, ""), (1001, "password_too_long")])
def test_a_password_has_a_thousand_characters_at_the_most(length: int, code: str) -> None:
    assert told("x" * length) == code


def told(password: str) -> str:
    try:
        demand_fit(password)
    except PasswordUnfit as unfit:
        return unfit.code
    return ""


def test_a_password_fits_alone_what_was_kept_of_it_and_nothing_fits_nobody_s() -> None:
    kept = hashed(PASSWORD)
    assert PASSWORD not in kept
    assert [fits(PASSWORD, kept), fits(PASSWORD + " ", kept), fits(PASSWORD, None), fits("nobody's", None)] == [
        True,
        False,
        False,
        False,
    ]


def test_a_letter_that_a_phone_writes_in_two_signs_and_a_desk_in_one_is_the_same() -> None:
    assert fits("cafe\u0301 au lait", hashed("caf\u00e9 au lait"))
