"""The crew's pages about a dig, and what ties a leak to others: said on a page, read on the sheet."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from tests.intake.lines import size
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


def titles(client: FlaskClient, leak: str) -> list[str]:
    """What each entry of the sheet is headed with, its verdict too."""
    found = re.findall(r"<h2>(.*?)</h2>", client.get(f"/leaks/{leak}").text, re.DOTALL)
    bare = (re.sub(r"<small>.*?</small>|<[^>]+>", "", each) for each in found)
    return [" ".join(each.split()) for each in bare]


def test_a_dig_is_said_step_by_step_and_read_on_the_sheet(crew: FlaskClient, leak: str, book: m.Book) -> None:
    opened = fill_in(
        crew,
        f"/leaks/{leak}/dig",
        dig__happened=["2026-03-05", "08:30"],
        dig__ticket="T-1",
        dig__ticket_until=["2026-03-04", ""],
        **{"dig-ties-0-from_what": "pole 12", "dig-ties-0-distance": "12 ft 4 in"},
    )
    assert opened.status_code == 303
    sheet = crew.get(f"/leaks/{leak}").text
    dig = re.search(rf"/leaks/{leak}/digs/([0-9a-f-]{{36}})/found", sheet)
    assert dig
    assert "12 ft 4 in from pole 12" in sheet
    assert "after the locate ticket had run out on 4 Mar 2026" in sheet
    at = f"/leaks/{leak}/digs/{dig[1]}"
    for step, typed in (
        ("found", {"step__found": "nothing"}),
        ("pipe", {"step__pipe": "the old main", "step__outside": "bare", "step__corrosion_outside": "pitting"}),
        ("backfill", {"step__material": "sand"}),
        ("owed", {"step__what": "asphalt", "step__by_on": "2026-04-30"}),
    ):
        assert fill_in(crew, f"{at}/{step}", step__happened=["2026-03-06", ""], **typed).status_code == 303
    (owed,) = (each for each in form_page(crew.get(f"{at}/restored")).offers["step-owed"] if each[0])
    assert owed[1] == "asphalt, by 30 Apr 2026"
    assert fill_in(crew, f"{at}/restored", step__happened="2026-03-07", step__owed=owed[0]).status_code == 303
    assert titles(crew, leak)[1:] == [
        "Dig 1 opened a dry hole, restored",
        "Dig 1: found nothing: a dry hole",
        "Dig 1: exposed pipe, the old main",
        "Dig 1: backfilled",
        "Dig 1: restoration owed done 7 Mar 2026",
        "Dig 1: restored",
    ]


def test_what_cannot_be_read_of_a_dig_is_sent_back_and_still_stands(crew: FlaskClient, leak: str, book: m.Book) -> None:
    before = size(book.store)
    answer = fill_in(crew, f"/leaks/{leak}/dig", dig__ticket="T-1")
    assert (answer.status_code, size(book.store)) == (422, before)
    assert form_page(answer).boxes["dig-ticket"] == ["T-1"]


def test_a_dig_of_another_leak_is_not_there(crew: FlaskClient, leak: str, book: m.Book) -> None:
    other = m.leak(book)
    dig = d.dig(book, [other["id"]])
    book.say(other, dig)
    assert crew.get(f"/leaks/{leak}/digs/{dig['id']}/found").status_code == 404
    assert crew.get(f"/leaks/{other['id']}/digs/{dig['id']}/found").status_code == 200
    assert crew.get(f"/leaks/{other['id']}/digs/{dig['id']}/sold").status_code == 404


def test_a_dig_that_serves_two_leaks_stands_on_both_sheets(crew: FlaskClient, leak: str, book: m.Book) -> None:
    other = m.leak(book)
    dig = d.dig(book, [leak, other["id"]])
    book.say(other, dig, d.found(dig["id"]))
    assert [titles(crew, each)[-1] for each in (leak, other["id"])] == ["Dig 1: found the source"] * 2
    assert "Serves also" in crew.get(f"/leaks/{leak}").text
    book.say(m.corrected(dig["id"], ("leaks.l2", None)))
    assert [len(titles(crew, each)) for each in (leak, other["id"])] == [3, 1]


@pytest.mark.parametrize("typed", ["C-2026-55", "c 2026 55", "T-10418", "P-311", "40-118-2"])
def test_a_leak_is_found_by_any_number_of_its_own_its_digs_and_its_places(
    crew: FlaskClient, leak: str, book: m.Book, typed: str
) -> None:
    place, other = d.place(book), m.leak(book, street="Mill Lane")
    dig = d.dig(book, [leak], permit="P-311")
    book.say(place, other, dig, m.source(leak, place=place["id"]))
    said = fill_in(
        crew,
        f"/leaks/{leak}/number",
        number__happened="2026-03-05",
        number__what="claim",
        number__number="C-2026-55",
    )
    assert said.status_code == 303
    page = crew.get("/leaks", query_string={"number": typed}).text
    assert ("Quarry Lane" in page, "Mill Lane" in page) == (True, False)


def test_a_number_given_in_error_finds_nothing(crew: FlaskClient, leak: str, book: m.Book) -> None:
    number = d.number(leak)
    book.say(number)
    book.say(m.void(number["id"]))
    assert "No leak fits this" in crew.get("/leaks?number=C-2026-55").text


def test_a_link_is_shown_on_both_sheets(crew: FlaskClient, leak: str, book: m.Book) -> None:
    other = m.leak(book)
    number = book.say(other)[0].number
    linked = fill_in(
        crew,
        f"/leaks/{leak}/link",
        link__happened="2026-03-05",
        link__how="came_back_after",
        link__to_subject=number.lower(),
    )
    assert linked.status_code == 303
    assert f'<a href="/leaks/{other["id"]}">came back after {number}</a>' in crew.get(f"/leaks/{leak}").text
    assert f'<a href="/leaks/{leak}">ES-26-0001: came back after this one</a>' in crew.get(f"/leaks/{other['id']}").text


@pytest.mark.parametrize(
    ("typed", "said"),
    [("ES-26-0001", "is the number of this leak itself"), ("ES-26-0999", "ES-26-0999"), ("", "")],
)
def test_a_link_to_no_other_leak_is_asked_about(
    crew: FlaskClient, leak: str, book: m.Book, typed: str, said: str
) -> None:
    before = size(book.store)
    how = {"link__how": "waits_on", "link__happened": "2026-03-05"}
    answer = fill_in(crew, f"/leaks/{leak}/link", link__to_subject=typed, **how)
    assert (answer.status_code, size(book.store)) == (422, before)
    assert said in form_page(answer).said("link-to_subject")


def test_a_dig_and_what_it_found_can_be_put_right_from_the_sheet(crew: FlaskClient, leak: str, book: m.Book) -> None:
    dig = d.dig(book, [leak])
    found = d.found(dig["id"])
    book.say(dig, found, d.linked(leak, dig["id"], how="same_dig"))
    officer = site(book).client(book.officer)
    addresses = re.findall(r'href="(/leaks/[^"]+/right)"', officer.get(f"/leaks/{leak}").text)
    assert [officer.get(each).status_code for each in addresses] == [200] * 4
    at = f"/leaks/{leak}/entries/{found['id']}/right"
    said = fill_in(officer, at, entry__found="nothing", right__reason="another hole")
    assert said.status_code == 303
    assert titles(crew, leak)[1:3] == [
        "Dig 1 opened a dry hole, not backfilled yet",
        "Dig 1: found nothing: a dry hole",
    ]
