"""What is a person's own: the units they like to see beside what was typed, and their password."""

from __future__ import annotations

import pytest

from repairlog.records.beside.passwords import fits
from repairlog.records.beside.preferred import CHOSEN_FOR, offered, prefer_units, preferred_units
from repairlog.records.beside.sign_ins import sign_in_named
from tests.makers import book as m

PRESENT, NEW = "not used", "a new one altogether"


def liked(book, who):
    with book.store.reading() as tx:
        return preferred_units(tx, who.person)


def name_of(who):
    return f"sign-in {who.person}"


def test_a_sheet_says_measures_in_the_units_the_reader_likes_beside_what_was_typed(book, site):
    leak = m.leak(book)
    book.say(leak, m.attempt(leak["id"], pressure_found="45 psi", pipe_temperature="57 F", hole_size="1/16 in"))
    reader = site.client(book.supervisor)
    sheet = f"/leaks/{leak['id']}"
    assert "310 kPa" in reader.get(sheet).text
    assert send_units(reader, pressure="bar", temperature="°F").headers["Location"] == "/mine?done=units"
    told = reader.get(sheet).text
    assert ("45 psi gauge" in told, "3.1 bar" in told, "310 kPa" in told) == (True, True, False)
    assert ("57 F" in told, "13.9 °C" in told) == (True, False)  # typed in the unit that is liked
    assert "310 kPa" in site.client(book.crew).get(sheet).text  # another reader's own


def send_units(client, **units):
    token = client.get("/mine").text.split('name="csrf_token" value="')[1].split('"')[0]
    return client.post("/mine/units", data={"csrf_token": token, **units})


def test_what_is_chosen_stands_there_again_and_what_is_not_offered_is_left_out(book, site):
    reader = site.client(book.crew)
    send_units(reader, pressure="in wc", distance="parsec", colour="red")
    assert liked(book, book.crew) == {"pressure": "in wc"}
    assert "<option selected>in wc</option>" in reader.get("/mine").text
    send_units(reader)
    assert liked(book, book.crew) == {}


def test_no_unit_is_liked_that_its_quantity_is_not_read_in(book):
    with pytest.raises(ValueError, match="pressure is not offered in ft"):
        prefer_units(book.store, person=book.crew.person, units={"pressure": "ft"})
    assert liked(book, book.crew) == {}
    assert all("ppm-m" not in offered(each) and offered(each) for each in CHOSEN_FOR)
    assert offered("colour") == ()


def change(client, **typed):
    token = client.get("/mine").text.split('name="csrf_token" value="')[1].split('"')[0]
    return client.post("/mine/password", data={"csrf_token": token, **typed})


def test_a_new_password_signs_every_other_browser_out_and_this_one_stays_in(book, site):
    here, elsewhere = site.client(book.crew), site.client(book.crew)
    answer = change(here, present=PRESENT, new=NEW, again=NEW)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/mine?done=password")
    kept = sign_in_named(book.store, name_of(book.crew)).password_hash
    assert (fits(NEW, kept), fits(PRESENT, kept)) == (True, False)
    assert here.get("/mine?done=password").status_code == 200
    assert elsewhere.get("/mine").status_code == 302


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"present": "guessed", "new": NEW, "again": NEW}, "The present password is another one."),
        ({"present": PRESENT, "new": NEW, "again": NEW + "x"}, "The two new passwords differ."),
        ({"present": PRESENT, "new": "sh0rt-1", "again": "sh0rt-1"}, "8"),
        ({}, "The present password is another one."),
    ],
)
def test_a_password_stays_where_the_new_one_cannot_be_taken_and_the_page_says_why(book, site, typed, said):
    client = site.client(book.crew)
    answer = change(client, **typed)
    assert (answer.status_code, said in answer.text) == (422, True)
    assert fits(PRESENT, sign_in_named(book.store, name_of(book.crew)).password_hash)
    assert all(word not in answer.text for word in typed.values())


def test_guessing_the_present_password_is_slowed_as_signing_in_is(book, site):
    client = site.client(book.crew)
    answers = [change(client, present="guessed", new=NEW, again=NEW).status_code for _ in range(12)]
    assert (answers[0], answers[-1]) == (422, 429)
    assert change(client, present=PRESENT, new=NEW, again=NEW).status_code == 429
