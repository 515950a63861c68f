"""Who comes to help is put on the books on the spot, without any role and with what they show; an instrument with the
calibration that it comes with."""

from __future__ import annotations

from dataclasses import replace

import pytest
from flask.testing import FlaskClient

from repairlog.access import Membership, Refused
from repairlog.records.tables.books import ROLE
from repairlog.records.tables.facts import OF_KIND
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site

GUEST = {"entry__name": "R. Guest", "entry__company": "Weirside Gas", "entry__happened": ["2026-03-03", ""]}
CARD = {
    "evidence__task": "install clamp",
    "evidence__happened": ["2025-06-01", ""],
    "evidence__until_on": "2028-06-01",
    "evidence__evaluator_named": "L. Penrose",
    "evidence__document": "card 118",
}


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


def test_a_crew_adds_who_comes_to_help_with_a_card_and_names_them(book: m.Book, crew: FlaskClient) -> None:
    answer = fill_in(crew, "/people/visiting", **GUEST, **CARD)
    assert answer.status_code == 303
    assert "R. Guest" in crew.get(answer.location).text
    leak = m.leak(book)
    book.say(leak)
    offered = form_page(crew.get(f"/leaks/{leak['id']}/repair")).offers["repair-people-0-person"]
    assert "R. Guest" in {shown for _id, shown in offered}
    guest = next(row for row in rows(book.store, OF_KIND["qualified"]) if row["document"] == "card 118")
    assert guest["subject_id"] not in {row["person_id"] for row in rows(book.store, ROLE)}


def test_somebody_who_showed_nothing_is_added_all_the_same(book: m.Book, crew: FlaskClient) -> None:
    before = len(rows(book.store, OF_KIND["qualified"]))
    assert fill_in(crew, "/people/visiting", **GUEST).status_code == 303
    assert len(rows(book.store, OF_KIND["qualified"])) == before


def test_evidence_without_its_task_is_sent_back_and_nothing_is_lost(book: m.Book, crew: FlaskClient) -> None:
    before = len(rows(book.store, OF_KIND["person_added"]))
    answer = fill_in(crew, "/people/visiting", **GUEST, evidence__document="card 118")
    boxes = form_page(answer).boxes
    assert (answer.status_code, boxes["entry-name"], boxes["evidence-document"]) == (422, ["R. Guest"], ["card 118"])
    assert len(rows(book.store, OF_KIND["person_added"])) == before


@pytest.mark.parametrize("said", ["a role", "somebody who was there before", "a helper with a role"])
def test_nobody_on_the_spot_gives_a_role_or_vouches_for_who_was_there_before(book: m.Book, said: str) -> None:
    role = [{"key": "r1", "role": "supervisor", "from_on": "2026-03-03"}]
    person = {"kind": "person_added", "id": m.new_id(), "name": "R. Guest", "happened": "2026-03-03"}
    calls = {
        "a role": [person | {"roles": role}],
        "somebody who was there before": [m.qualified(str(book.crew.person))],
        "a helper with a role": [person | {"roles": role}, m.qualified(person["id"])],
    }
    with pytest.raises(Refused):
        book.say(*calls[said], by=book.crew)


def test_an_instrument_is_added_with_the_calibration_that_it_comes_with(book: m.Book, crew: FlaskClient) -> None:
    meter = {
        "entry__mark": "V-7",
        "entry__what": "combustible gas indicator",
        "entry__happened": ["2026-03-03", ""],
        "entry__area": book.area,
        "calibrated__happened": ["2026-02-20", ""],
        "calibrated__result": "in_tolerance",
        "calibrated__next_due_on": "2026-05-20",
    }
    answer = fill_in(crew, "/instruments/new", **meter)
    assert answer.status_code == 303
    assert "20 May 2026" in crew.get(answer.location).text


def test_of_an_instrument_that_was_there_before_a_crew_says_no_calibration(book: m.Book) -> None:
    meter = m.instrument(book)
    book.say(meter)
    with pytest.raises(Refused):
        book.say(m.calibrated(meter["id"]), by=book.crew)


def test_a_companys_crew_adds_who_comes_to_help_too(book: m.Book) -> None:
    person = m.new_id()
    role = m.role_given(person, "crew", company="Dale Pipe Co")
    book.say({"kind": "person_added", "id": person, "name": "L. Quist", "happened": "2025-01-02"}, role)
    held = Membership(role="crew", area=m.read_id(book.area), from_on="2026-03-02", company="Dale Pipe Co")
    client = site(book).client(replace(book.crew, person=m.read_id(person), memberships=(held,)))
    answer = fill_in(client, "/people/visiting", **GUEST, **CARD)
    assert answer.status_code == 303
    assert "R. Guest" in client.get(answer.location).text
