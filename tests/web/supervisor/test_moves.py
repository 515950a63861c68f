"""Something is moved to another area from its own page; who sees the area that it left is told where it went."""

from __future__ import annotations

import pytest

from repairlog.access import Actor
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.web.everyone.read import entries_of, link, rows_of, text_of

WHY = "the service hangs on their main"


@pytest.fixture
def pages(book):
    """The application on the book, whose Highfold adopted the invented practice."""
    book.say(m.adopted(book.other_area))
    return site(book)


def moved(client, book, address):
    """Move what that page is about to Highfold, from the page that its link leads to."""
    way = link(client.get(address).text, "Move to another area")
    typed = {"entry__happened": ["2026-03-05", ""], "entry__to_area": book.other_area, "entry__reason": WHY}
    return way, fill_in(client, way, **typed)


def test_a_leak_is_moved_from_its_sheet_which_tells_of_it_and_owes_by_the_rulebook_of_where_it_went(pages, book, leak):
    book.say(m.grade(leak, grade="1", happened="2026-03-03 09:00"))
    officer = pages.client(book.officer)
    way, answer = moved(officer, book, f"/leaks/{leak}")
    assert (answer.status_code, answer.location.partition("?")[0]) == (303, f"/leaks/{leak}")
    sheet = officer.get(answer.location).text
    (told,) = (each for each in entries_of(sheet) if "Moved from" in each)
    assert "Moved from Eastmarsh to Highfold" in told
    assert WHY in told
    assert way == f"/moved/{leak}"
    assert "This area has adopted no rulebook" not in sheet


def test_every_list_has_it_where_it_went_and_only_there(pages, book, leak):
    book.say(m.visit(leak, instrument="G-9"), m.grade(leak, grade="1", happened="2026-03-03 09:00"))
    book.say(m.moved(leak, book.other_area))
    officer, supervisor = (pages.client(who) for who in (book.officer, book.supervisor))
    lists = ("/leaks?area={}&status=open", "/due?area={}", "/gaps?area={}", "/records?area={}", "/leaks?as=csv&area={}")
    found = {
        (address, code): "ES-26-0001" in officer.get(address.format(code)).text
        for address in lists
        for code in ("HF", "ES")
    }
    assert found == {(address, code): code == "HF" for address in lists for code in ("HF", "ES")}
    assert [address for address in lists if "ES-26-0001" in supervisor.get(address.format("ES")).text] == []
    assert "ES-26-0001" in text_of(officer.get("/leaks?number=ES-26-0001").text)


def test_who_sees_the_area_that_it_left_is_told_where_it_went_by_its_number_its_address_and_in_a_list(
    pages, book, leak
):
    book.say(m.moved(leak, book.other_area, reason=WHY))
    supervisor = pages.client(book.supervisor)
    told = "Leak ES-26-0001 was moved to Highfold on 5 Mar 2026."
    gone = supervisor.get(f"/leaks/{leak}")
    assert (gone.status_code, told in text_of(gone.text), WHY in gone.text) == (404, True, True)
    assert told in text_of(supervisor.get("/leaks?number=es-26").text)
    listed = supervisor.get("/moved").text
    assert rows_of(listed) == [f"Leak ES-26-0001 5 Mar 2026 Eastmarsh Highfold {WHY}"]
    assert link(listed, "Leak ES-26-0001") == ""
    officer = pages.client(book.officer)
    assert link(officer.get("/moved").text, "Leak ES-26-0001") == f"/leaks/{leak}"
    assert told not in text_of(officer.get("/leaks?number=ES-26").text)


def test_who_never_saw_it_is_told_nothing_of_it(pages, book, leak):
    book.say(m.moved(leak, book.other_area), m.moved(leak, book.area, happened="2026-03-05 07:00"))
    there = m.person("E. Nowak")
    third = {"kind": "area_opened", "id": m.new_id(), "name": "Low Vale", "code": "LV", "zone": "America/Denver"}
    book.say(third | {"happened": "2025-01-02"}, there, m.role_given(there["id"], "supervisor", area=third["id"]))
    stranger = pages.client(Actor(person=m.read_id(there["id"]), sure="password"))
    answer = stranger.get(f"/leaks/{leak}")
    assert (answer.status_code, "Highfold" in answer.text) == (404, False)
    assert rows_of(stranger.get("/moved").text) == []


def test_a_call_a_dig_a_place_a_lot_a_crew_an_instrument_and_a_shelf_are_moved_from_their_pages(pages, book, leak):
    call, place, dig, shelf = c.call(book), d.place(book), d.dig(book, [leak]), s.shelf(book)
    crew, meter = m.crew(book), m.instrument(book)
    book.say(call, place, dig, crew, meter, shelf)
    at = {
        f"/calls/{call['id']}": f"/calls/{call['id']}",
        f"/places/{place['id']}": f"/places/{place['id']}",
        f"/stores/lots/{book.lot}": f"/stores/lots/{book.lot}",
        f"/crews/{crew['id']}": f"/crews/{crew['id']}",
        f"/instruments/{meter['id']}": f"/instruments/{meter['id']}",
        f"/leaks/{leak}": f"/leaks/{leak}",
        f"/stores/shelves/{shelf['id']}": f"/stores/shelves/{shelf['id']}",
    }
    officer = pages.client(book.officer)
    dig_way = f"/moved/{dig['id']}?leak={leak}"
    assert dig_way.replace("&", "&amp;") in officer.get(f"/leaks/{leak}").text
    went = {}
    for address in at:
        _way, answer = moved(officer, book, address)
        went[address] = (answer.status_code, answer.location.partition("?")[0])
    assert went == {address: (303, back) for address, back in at.items()}
    typed = {"entry__happened": ["2026-03-05", ""], "entry__to_area": book.other_area, "entry__reason": WHY}
    assert fill_in(officer, dig_way, **typed).location.partition("?")[0] == f"/leaks/{leak}"
    supervisor = pages.client(book.supervisor)
    assert [supervisor.get(address).status_code for address in at] == [404] * 7
    assert len(rows_of(supervisor.get("/moved").text)) == 8
    assert f'href="/leaks/{leak}#e-{dig["id"]}"' in officer.get("/moved").text


def test_who_has_a_role_in_one_area_alone_is_told_so_and_moves_nothing(pages, book, leak):
    supervisor = pages.client(book.supervisor)
    page = supervisor.get(f"/moved/{leak}")
    assert (page.status_code, "There is no other area in which you may take it over." in page.text) == (200, True)
    typed = {"entry__happened": ["2026-03-05", ""], "entry__reason": WHY}
    assert fill_in(supervisor, f"/moved/{leak}", **typed).status_code == 422
    assert link(pages.client(book.crew).get(f"/leaks/{leak}").text, "Move to another area") == ""
