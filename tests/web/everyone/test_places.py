"""Streets and places in one list with what happened there; two records of the same made one, seen on every page."""

from __future__ import annotations

import csv
import io

import pytest
from flask.testing import FlaskClient

from repairlog.web.frame import listing
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.form_page import fill_in
from tests.makers.program import actors
from tests.makers.site import site
from tests.records.queries.test_leaks_plan import run
from tests.web.everyone.read import link, rows_of, said_beside, text_of

AT = {"entry__happened": ["2026-03-05", ""]}
SAME = AT | {"entry__reason": "one and the same"}


@pytest.fixture
def admin(book: m.Book) -> FlaskClient:
    return site(book).client(book.everyone)


def quarry(book: m.Book) -> tuple[str, str, str]:
    """A place in Quarry Lane with a leak, its dig and its call, and a leak elsewhere in the street."""
    place, leak, call = d.place(book), m.leak(book), c.call(book)
    book.say(place, leak, m.source(leak["id"], place=place["id"]), d.dig(book, [leak["id"]]), call)
    found = c.outcome(call["id"], outcome="operators_leak", found_leak=leak["id"])
    elsewhere = m.leak(book, area=book.other_area, happened="2026-03-04")
    book.say(c.on_site(call["id"]), found, elsewhere)
    return place["id"], leak["id"], call["id"]


def test_a_street_and_a_place_are_listed_with_their_leaks_calls_and_digs(book, admin):
    place, leak, _call = quarry(book)
    page = admin.get("/places").text
    assert [row.split() for row in rows_of(page)] == [
        [*["14", "Quarry", "Lane,", "Harrowsedge", "Service,", "Eastmarsh", "3", "Mar", "2026", "1", "1", "1", "1"]],
        [*["Quarry", "Lane,", "Harrowsedge", "Street", "4", "Mar", "2026", "2", "2", "1", "1"]],
    ]
    one, street = (
        admin.get(link(page, name)).text for name in ("14 Quarry Lane, Harrowsedge", "Quarry Lane, Harrowsedge")
    )
    assert (link(one, "ES-26-0001"), link(street, "HF-26-0001")[:7]) == (f"/leaks/{leak}#e-" + _dig(one), "")
    assert "nobody said yet what was found, not backfilled yet" in text_of(one)
    assert "A place is added" in text_of(one)
    assert f"/books/{place}/entries/{place}/right" in one


def _dig(page: str) -> str:
    return page.partition("#e-")[2][:36]


def test_the_list_is_filtered_by_words_numbers_kind_and_area_and_taken_away_the_same(book, admin):
    quarry(book)
    book.say(d.place(book, called="=the mill", street="Weir Street", house_number="2", outside_numbers=[]))
    names = {
        "text=LANE+quarry": ["14 Quarry Lane, Harrowsedge", "Quarry Lane, Harrowsedge"],
        "text=40-118-2": ["14 Quarry Lane, Harrowsedge"],
        "text=%25": [],
        "what=street": ["Quarry Lane, Harrowsedge"],
        "area=HF": ["Quarry Lane, Harrowsedge"],
        "text=mill": ["=the mill"],
    }
    for asked, found in names.items():
        page = admin.get(f"/places?{asked}").text
        assert [row for row in found if link(page, row)] == found, asked
        assert len(rows_of(page)) == len(found), asked
    file = admin.get(link(admin.get("/places?text=mill").text, "Take these away as CSV"))
    [row] = csv.DictReader(io.StringIO(file.data.decode("utf-8-sig")))
    assert (row["What it is called"], row["Street"], row["Leaks"]) == ("'=the mill", "Weir Street", "0")
    page = admin.get("/places?what=hole&area=nowhere").text
    assert said_beside(page, "what") == "“hole” is none of the choices; it is left out for now."
    assert len(rows_of(page)) == 3


def test_who_sees_one_area_sees_its_streets_places_and_counts_alone(book, admin):
    place, _leak, _call = quarry(book)
    theirs = site(book).client(book.crew)
    assert [row.split()[-4:] for row in rows_of(theirs.get("/places").text)] == [["1"] * 4, ["1"] * 4]
    other = site(book).client(actors(book)["foreign"])
    assert [row.split()[-4:] for row in rows_of(other.get("/places").text)] == [["Mar", "2026", "1", "1"]]
    assert other.get(f"/places/{place}").status_code == 404


def test_the_list_goes_on_where_a_page_ends_and_asks_no_more_of_many_rows(book, admin, monkeypatch):
    monkeypatch.setattr(listing, "A_PAGE", 2)
    counted = []
    for more in (1, 4):
        book.say(*(m.leak(book, street=f"Row {book.area[:4]}{more}{number}") for number in range(more)), d.place(book))
        with run(book.store) as seen:
            admin.get("/places")
        counted.append(len(seen))
    assert counted[0] == counted[1]
    shown, at = 0, "/places"
    while at:
        page = admin.get(at).text
        shown, at = shown + len(rows_of(page)), link(page, "Further")
    assert shown == 7


def test_two_places_are_made_one_and_two_again(book, admin):
    place, _leak, _call = quarry(book)
    other, leak = d.place(book, called="gate service"), m.leak(book)
    book.say(other, leak, m.source(leak["id"], place=other["id"]))
    offered = admin.get(f"/books/{place}/same?text=gate").text
    chosen = admin.get(link(offered, "gate service")).text
    assert "14 Quarry Lane is kept" in text_of(chosen)
    made = fill_in(admin, f"/books/{place}/same/{other['id']}", **SAME)
    assert (made.status_code, made.location.partition("?")[0]) == (303, f"/places/{place}")
    page = admin.get("/places?what=service").text
    assert [row.split()[-4:] for row in rows_of(page)] == [["2", "2", "1", "1"]]
    assert link(admin.get(f"/places/{other['id']}").text, "14 Quarry Lane") == f"/places/{place}"
    kept = admin.get(made.location).text
    assert link(kept, "gate service") == f"/places/{other['id']}"
    entry = made.location.partition("saved=")[2]
    fill_in(admin, f"/books/{place}/entries/{entry}/void", void__reason="two gates")
    assert len(rows_of(admin.get("/places?what=service").text)) == 2


def test_old_records_call_a_person_as_the_one_that_is_kept(book, admin):
    twin, leak = m.person("Mary Aldous"), m.leak(book)
    book.say(twin, leak, m.note(leak["id"], did=[{"key": "d1", "person": twin["id"]}]))
    crew = str(book.crew.person)
    made = fill_in(admin, f"/books/{crew}/same/{twin['id']}", **SAME)
    assert made.location.startswith(f"/people/{crew}?saved=")
    assert "Mary Aldous" not in admin.get(f"/leaks/{leak['id']}").text
    assert "M. Aldous, on the books as Mary Aldous" in text_of(admin.get(f"/people/{crew}").text)
    assert link(admin.get("/people").text, "Mary Aldous") == ""
    assert "Mary Aldous" not in admin.get(f"/leaks/{leak['id']}/note").text


def test_a_ring_is_raised_on_each_page_and_hides_nothing(book, admin):
    lots = [s.received(book, lot_number=f"R-{number}") for number in range(3)]
    book.say(*lots)
    ids = [lot["id"] for lot in lots]
    book.say(*(d.made_one(kept, other) for kept, other in zip(ids, ids[1:] + ids[:1], strict=True)))
    assert len(rows_of(admin.get("/stores?number=R-").text)) == 3
    for id in ids:
        assert "none of them is" in text_of(admin.get(f"/stores/lots/{id}").text)
    assert "in a ring of records" in text_of(admin.get(f"/books/{book.lot}/same/{ids[0]}").text)


def test_what_goes_on_under_another_is_not_made_one_once_more(book, admin):
    first, second, third = (s.received(book, lot_number=f"T-{number}") for number in range(3))
    book.say(first, second, third, d.made_one(first["id"], second["id"]), d.made_one(second["id"], third["id"]))
    assert [row.split()[0] for row in rows_of(admin.get("/stores?number=T-").text)] == ["T-0"]
    assert link(admin.get(f"/stores/lots/{third['id']}").text, "T-0") == f"/stores/lots/{first['id']}"
    page = text_of(admin.get(f"/books/{third['id']}/same/{book.lot}").text)
    assert "This record goes on as “T-0”." in page
    assert admin.get(f"/books/{first['id']}/same/{book.crew.person}").status_code == 404


def test_of_a_kept_record_that_was_added_in_error_the_other_is_shown(book, admin):
    kept, other = s.received(book, lot_number="E-1"), s.received(book, lot_number="E-2")
    book.say(kept, other, d.made_one(kept["id"], other["id"]))
    book.say(m.void(kept["id"]))
    assert [row.split()[0] for row in rows_of(admin.get("/stores?number=E-").text)] == ["E-2"]


def test_two_names_of_a_street_are_one_in_the_list_and_two_again_once_that_is_void(book, admin):
    quarry(book)
    book.say(m.leak(book, street="Quarry Ln"), c.call(book, street="Quarry Ln"))
    assert len(rows_of(admin.get("/places?what=street").text)) == 2
    kept, other = (d.street_id(name, "Harrowsedge") for name in ("Quarry Lane", "Quarry Ln"))
    made = fill_in(admin, f"/places/streets/{kept}/same/{other}", entry__subject=book.area, **SAME)
    assert (made.status_code, made.location) == (303, f"/places/streets/{kept}")
    page = admin.get("/places?what=street").text
    assert [" ".join(row.split()) for row in rows_of(page)] == ["Quarry Lane, Harrowsedge Street 4 Mar 2026 3 3 2 1"]
    assert link(admin.get("/places?text=ln").text, "Quarry Lane, Harrowsedge") == f"/places/streets/{kept}"
    told = admin.get(f"/places/streets/{other}").text
    assert "“Quarry Ln, Harrowsedge” is the same street" in text_of(told)
    entry = link(told, "The entry that says so").partition("#e-")[2]
    book.say(m.void(entry))
    assert len(rows_of(admin.get("/places?what=street").text)) == 2


def test_a_place_is_added_and_retired_by_its_pages(book, admin):
    added = fill_in(
        admin, "/places/new", entry__area=book.area, entry__what="meter_set", entry__street="Weir Street", **AT
    )
    place = added.location.partition("?")[0]
    retired = fill_in(admin, f"{place}/retire", entry__reason="cut and sealed", **AT)
    assert (added.status_code, retired.status_code) == (303, 303)
    assert "retired 5 Mar 2026" in text_of(admin.get("/places").text)


def test_a_lot_is_put_right_from_its_own_page(book, admin):
    page = admin.get(f"/stores/lots/{book.lot}").text
    right = fill_in(admin, link(page, "Put right"), right__reason="misread", entry__lot_number="W-0119")
    assert right.location.partition("?")[0] == f"/stores/lots/{book.lot}"
    told = text_of(admin.get(right.location).text)
    assert "W-0119" in told.partition("RepairLog")[0]
    assert "misread" in told
