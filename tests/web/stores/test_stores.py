"""Stores: what expires first stands first, a lot tells what happened to it and where it was used, forms enter it."""

from __future__ import annotations

import pytest

from repairlog.web.frame import listing
from repairlog.words import stores as words
from tests.makers import book as m
from tests.makers import stores as s
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.web.everyone.read import link, rows_of, said_beside, text_of


@pytest.fixture
def supervisor(book):
    return site(book).client(book.supervisor)


def numbers(page):
    return [row.split()[0] for row in rows_of(page)]


def test_what_expires_first_stands_first_then_by_item_and_pages_follow(book, supervisor, monkeypatch):
    monkeypatch.setattr(listing, "A_PAGE", 2)
    late, soon = {"expires_on": "2027-01-01"}, {"expires_on": "2026-04-01"}
    never = [s.received(book, lot_number=name, item=item) for name, item in (("N-2", "zinc"), ("N-1", "anode"))]
    book.say(*never, s.received(book, lot_number="L-1", **late), s.received(book, lot_number="S-1", **soon))
    first = supervisor.get("/stores").text
    second = supervisor.get(link(first, "Further")).text
    third = supervisor.get(link(second, "Further")).text
    assert [numbers(page) for page in (first, second, third)] == [["S-1", "W-0118"], ["L-1", "N-1"], ["N-2"]]
    assert link(third, "Further") == ""


def test_what_is_gone_stands_behind_what_is_there_page_by_page(book, supervisor, monkeypatch):
    monkeypatch.setattr(listing, "A_PAGE", 1)
    gone, old = (s.received(book, lot_number=name, expires_on="2025-01-01") for name in ("G-1", "O-1"))
    empty = s.received(book, lot_number="E-1", expires_on="2024-06-01")
    scrapped = s.scrapped(gone["id"])
    scrapped.pop("amount", None)
    book.say(gone, old, empty, scrapped, s.counted(empty["id"], "0"))
    page, seen = supervisor.get("/stores").text, []
    while page:
        seen += numbers(page)
        following = link(page, "Further")
        page = supervisor.get(following).text if following else ""
    assert seen == ["O-1", "W-0118", "E-1", "G-1"]


def test_the_filter_finds_by_item_maker_number_shelf_status_and_days(book, supervisor):
    truck, clamps = s.shelf(book), s.received(book, maker="Brackwater Works", lot_number="C-30")
    moved = s.moved(clamps["id"], shelf=truck["id"])
    del moved["named"]
    book.say(truck, clamps, moved, s.quarantined(clamps["id"]))
    for asked in ("item=CLAMP", "maker=brack", "number=c-3", "shelf=truck", "status=quarantined"):
        assert numbers(supervisor.get(f"/stores?{asked}").text) == ["C-30"], asked
    assert numbers(supervisor.get("/stores?days=36500").text) == ["W-0118"]
    assert numbers(supervisor.get("/stores?status=scrapped").text) == []
    page = supervisor.get("/stores?days=soon&status=warm&area=ZZ").text
    assert said_beside(page, "days") == "“soon” is no whole number of days up to 36500; it is left out for now."
    assert said_beside(page, "status") == "“warm” is none of the choices; it is left out for now."
    assert len(numbers(page)) == 2
    file = supervisor.get(link(supervisor.get("/stores?item=clamp").text, "Take these away as CSV"))
    assert 'C-30,"clamp, 3/4 in",Brackwater Works,Eastmarsh,Quarantined,,,Truck 4,24 each,2026-03-02' in file.text


@pytest.mark.parametrize(
    ("on", "said"),
    [
        ("2026-09-29", "30 Sep 2026, 1 day left"),
        ("2026-09-30", "30 Sep 2026, today is its last day"),
        ("2026-10-01", "30 Sep 2026, expired 1 day ago"),
        ("2026-10-02", "30 Sep 2026, expired 2 days ago"),
    ],
)
def test_days_left_are_told_from_the_day_of_reading(on, said):
    assert words.until("2026-09-30", on=on) == said


def test_a_lot_tells_what_happened_where_it_was_used_and_what_should_be_there(book, supervisor):
    lot, leak = s.received(book), m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "lot": lot["id"], "used": "2"}])
    book.say(lot, leak, attempt, s.used(lot["id"], "3 each"), s.counted(lot["id"], "18"))
    page = supervisor.get(f"/stores/lots/{lot['id']}").text
    text = text_of(page)
    assert "Received 24 each Used in repairs 2 Used otherwise or scrapped 3" in text
    assert "Should be there, by the book 19 Counted last 18, 4 Mar 2026" in text
    assert link(page, "ES-26-0001") == f"/leaks/{leak['id']}"
    assert "Material of a lot is used otherwise than in a repair" in text
    assert "How much, as counted 3 each" in text
    assert "What for training" in text
    book.say(m.attempt(leak["id"], materials=[{"key": "m1", "lot": lot["id"], "used": "some"}]))
    assert "by the book cannot be counted from what is written" in text_of(
        supervisor.get(f"/stores/lots/{lot['id']}").text
    )


def test_of_two_lots_made_one_the_kept_one_tells_where_both_were_used(book, supervisor):
    kept, other, leak = s.received(book), s.received(book, lot_number="C 30"), m.leak(book)
    used = [{"key": "m1", "lot": kept["id"], "used": "2"}, {"key": "m2", "lot": other["id"], "used": "1"}]
    one = {"kind": "made_one", "id": m.new_id(), "subject": kept["id"], "other": other["id"], "reason": "one box"}
    book.say(kept, other, leak, m.attempt(leak["id"], materials=used), one | {"happened": "2026-03-05"})
    page, its_other = (supervisor.get(f"/stores/lots/{lot['id']}").text for lot in (kept, other))
    assert "Used in repairs 3 " in text_of(page)
    assert "Should be there, by the book 21" in text_of(page)
    assert link(page, "C 30") == f"/stores/lots/{other['id']}"
    assert (link(its_other, "C-30"), "Used in repairs 1 " in text_of(its_other)) == (f"/stores/lots/{kept['id']}", True)


def test_a_leak_elsewhere_that_used_the_lot_is_not_told_to_who_may_not_see_it(book, supervisor):
    leak = m.leak(book, area=book.other_area)
    book.say(leak, m.attempt(leak["id"], happened="2026-03-04", materials=[{"key": "m1", "lot": book.lot}]))
    page = supervisor.get(f"/stores/lots/{book.lot}").text
    assert "HF-26" not in page
    assert site(book).client(book.officer).get(f"/stores/lots/{book.lot}").text.count("HF-26-0001") == 1


def test_each_form_enters_what_it_says(book, supervisor):
    typed = {
        "move": {"stores__named": "bay 3"},
        "count": {"stores__amount": "20"},
        "use": {"stores__amount": "1", "stores__used_for": "training"},
        "quarantine": {"stores__reason": "torn"},
        "release": {"stores__reason": "sound"},
        "scrap": {"stores__amount": "1", "stores__reason": "torn"},
    }
    for what, boxes in typed.items():
        address = f"/stores/lots/{book.lot}/{what}"
        answer = fill_in(supervisor, address, stores__happened="2026-03-03", **boxes)
        assert (answer.status_code, answer.location.partition("?")[0]) == (303, f"/stores/lots/{book.lot}"), what
        assert "Saved: " in text_of(supervisor.get(answer.location).text), what
    page = supervisor.get(f"/stores/lots/{book.lot}").text
    assert (link(page, "Quarantine"), link(page, "Release")) == (f"/stores/lots/{book.lot}/quarantine", "")
    told = text_of(supervisor.get(f"/stores/lots/{book.lot}").text)
    assert told.count("3 Mar 2026") >= 6
    received = fill_in(
        supervisor, "/stores/receive", stores__item="primer", stores__lot_number="P-1", stores__happened="2026-03-03"
    )
    assert "Saved: A lot of material is received" in text_of(supervisor.get(received.location).text)
    shelf = fill_in(
        supervisor, "/stores/shelf", stores__name="bay 9", stores__what="yard", stores__happened="2026-03-03"
    )
    assert (shelf.status_code, shelf.location.rpartition("/")[0]) == (303, "/stores/shelves")
    assert "Saved: " in text_of(supervisor.get(shelf.location).text)
    assert numbers(supervisor.get("/stores?number=P-1").text) == ["P-1"]


def test_of_a_lot_that_was_scrapped_nothing_should_be_there_and_it_can_only_be_counted(book, supervisor):
    clamps = s.received(book, lot_number="C-30", received="24")
    scrapped = s.scrapped(clamps["id"])
    scrapped.pop("amount", None)
    book.say(clamps, scrapped)
    page = supervisor.get(f"/stores/lots/{clamps['id']}").text
    assert "Should be there, by the book nothing: it was scrapped" in text_of(page)
    offered = [link(page, name) != "" for name in ("Count", "Move", "Quarantine", "Release", "Scrap")]
    assert offered == [True, False, False, False, False]
