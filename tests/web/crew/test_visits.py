"""A crew enters a visit: every place with what was read there, the same holes beside their last readings."""

import re
from typing import Any

import pytest
from sqlalchemy import select

from repairlog.records.beside.preferred import prefer_units
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import site


def address(leak: str, purpose: str = "") -> str:
    return f"/leaks/{leak}/visit" + (f"?purpose={purpose}" if purpose else "")


def places(book: m.Book) -> list[tuple[Any, ...]]:
    return rows(book, "visit_places", "key", "kind", "label", "same_as")


def readings(book: m.Book) -> list[tuple[Any, ...]]:
    return rows(book, "visit_readings", "key", "place", "value", "kind")


def rows(book: m.Book, table: str, *names: str) -> list[tuple[Any, ...]]:
    of = METADATA.tables[table]
    with book.store.reading() as tx:
        latest = tx.connection.execute(select(of.c.entry_id).order_by(of.c.entry_id.desc()).limit(1)).scalar()
        found = tx.connection.execute(select(*(of.c[name] for name in names)).where(of.c.entry_id == latest))
        return sorted(tuple(row) for row in found)


WHEN: dict[str, str | list[str]] = {"visit__happened": ["2026-03-04", "09:10"], "visit__purpose": "re_evaluation"}


def test_a_first_visit_names_its_places_and_a_further_reading_one_of_them(store: Store) -> None:
    book = m.opened(store)
    opened = m.leak(book)
    book.say(opened)
    at = address(opened["id"], "first_investigation")
    crew = site(book).client(book.crew)
    page = form_page(crew.get(at))
    first = {
        "visit__happened": ["2026-03-04", "09:10"],
        "visit__ground": "wet",
        "visit__places__0__kind": "bar_hole",
        "visit__places__0__label": "over the service",
        "visit__readings__0__value": "60 %LEL",
        "visit__readings__0__kind": "sustained",
    }
    page = form_page(press_on(crew, at, page, press="add=visit-places", **first))
    second = {"visit__places__1__kind": "vault", "visit__places__1__owner": "telephone"}
    page = form_page(press_on(crew, at, page, press="add=visit-readings", **second, visit__readings__1__value="0 %LEL"))
    assert [words for _, words in page.offers["visit-readings-2-place"]] == [
        "Choose",
        "Place 1: over the service",
        "Place 2",
    ]
    further = {"visit__readings__2__place": "p1", "visit__readings__2__value": "80 %LEL"}
    saved = press_on(crew, at, page, **further, visit__readings__2__kind="peak")
    assert saved.status_code == 303
    assert places(book) == [("p1", "bar_hole", "over the service", None), ("r1", "vault", None, None)]
    assert readings(book) == [
        ("r1", "p1", "60 %LEL", "sustained"),
        ("r2", "r1", "0 %LEL", None),
        ("r3", "p1", "80 %LEL", "peak"),
    ]
    assert rows(book, "visit_readings", "value_percent_gas") == [(0.0,), (3.0,), (4.0,)]


@pytest.fixture
def looked_at(book: m.Book, leak: str) -> dict[str, Any]:
    visit = m.visit(leak)
    book.say(visit)
    return visit


def test_a_re_evaluation_shows_the_same_holes_with_their_last_readings_and_empty_boxes(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    answer = site(book).client(book.crew).get(address(leak, "re_evaluation"))
    page = form_page(answer)
    names = [f"{looked_at['id']}/{key}" for key in ("p1", "p2")]
    assert [page.boxes[f"visit-places-{place}-same_as"] for place in (0, 1)] == [[name] for name in names]
    assert [page.boxes[f"visit-readings-{place}-value"] for place in (0, 1)] == [[""], [""]]
    assert page.boxes["visit-purpose"] == ["re_evaluation"]
    shown = " ".join(answer.text.split())
    assert "<b>1</b> <small>6 ft from wall</small></th> <td><span>0 %LEL</span> <small>3 Mar 2026</small>" in shown
    assert "<b>2</b> <small>over the service</small></th> <td><span>60 %LEL</span> <small>3 Mar 2026</small>" in shown


def test_a_last_reading_stands_beside_the_box_in_the_unit_that_the_reader_likes_too(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    # 100 %LEL of methane is 5 % of gas where nothing else is said of the area: 60 % of 5 is 3
    prefer_units(book.store, person=book.crew.person, units={"gas": "%gas"})
    shown = " ".join(site(book).client(book.crew).get(address(leak, "re_evaluation")).text.split())
    assert "<span>60 %LEL</span> <small>3 % gas</small> <small>3 Mar 2026</small>" in shown
    assert "<span>0 %LEL</span> <small>3 Mar 2026</small>" in shown


def test_the_sheet_leads_to_a_re_evaluation_once_a_hole_is_known_and_until_the_leak_is_ended(
    book: m.Book, leak: str
) -> None:
    crew = site(book).client(book.crew)
    link = f'href="/leaks/{leak}/visit?purpose=re_evaluation">Re-evaluate</a>'
    shown = []
    for said in (m.note(leak), m.visit(leak), m.ending(leak, how="no_reading")):
        book.say(said)
        shown.append(link in crew.get(f"/leaks/{leak}").text)
    assert shown == [False, True, False]


def test_a_re_evaluation_is_saved_with_a_touch_a_hole_and_three_more(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    """Now, the unit, the holes, Save. A box that stays empty is no reading."""
    crew = site(book).client(book.crew)
    page = form_page(crew.get(address(leak, "re_evaluation")))
    page = form_page(press_on(crew, address(leak), page, press="now=visit-happened"))
    press_on(crew, address(leak), page, unit="%LEL", visit__readings__1__value="64")
    (left,) = of_person(book.store, book.crew.person) or (None,)
    assert left is None
    assert places(book) == [("h2", "bar_hole", None, f"{looked_at['id']}/p2")]
    assert readings(book) == [("r2", "h2", "64 %LEL", None)]
    with book.store.reading() as tx:
        assert len(list(tx.connection.execute(select(METADATA.tables["bar_hole"])))) == 2


def test_a_zero_is_a_reading_in_the_unit_that_was_chosen_and_a_unit_that_was_written_stands(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    crew = site(book).client(book.crew)
    typed = {"visit__readings__0__value": "0", "visit__readings__1__value": "2.5 %gas"}
    assert fill_in(crew, address(leak), **WHEN | typed, unit="%LEL").status_code == 303
    assert [value for _, _, value, _ in readings(book)] == ["0 %LEL", "2.5 %gas"]


def test_a_number_without_a_unit_is_asked_about_beside_its_box_and_stays_as_typed(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    crew = site(book).client(book.crew)
    typed = {"visit__readings__0__value": "0 %LEL", "visit__readings__1__value": "64"}
    answer = fill_in(crew, address(leak), **WHEN | typed)
    page = form_page(answer)
    assert answer.status_code == 422
    assert ("64 %LEL" in page.said("visit-readings-1-value"), page.boxes["visit-readings-1-value"]) == (True, ["64"])
    assert page.boxes["visit-readings-0-value"] == ["0 %LEL"]
    assert press_on(crew, address(leak), page, unit="%LEL").status_code == 303
    assert [value for _, _, value, _ in readings(book)] == ["0 %LEL", "64 %LEL"]


def test_each_reading_is_said_back_as_a_share_of_gas(book: m.Book, leak: str, looked_at: dict[str, Any]) -> None:
    crew = site(book).client(book.crew)
    page = form_page(
        fill_in(crew, address(leak), press="check=all", unit="%LEL", visit__readings__1__value="64", **WHEN)
    )
    assert "3.2 %" in page.said("visit-readings-1-value")
    assert (page.boxes["visit-readings-1-value"], page.boxes["unit"]) == (["64"], ["%LEL"])


def test_what_was_left_unfinished_comes_back_with_all_holes(book: m.Book, leak: str, looked_at: dict[str, Any]) -> None:
    crew = site(book).client(book.crew)
    typed = {"visit__readings__1__value": "64 %LOL", "visit__remarks": "fence is locked"}
    page = form_page(fill_in(crew, address(leak), **WHEN | typed))
    again = f"{address(leak)}?unfinished={page.boxes['visit-id'][0]}"
    page = form_page(crew.get(again))
    by_hole = {page.boxes[f"visit-places-{place}-same_as"][0]: place for place in (0, 1)}
    assert sorted(by_hole) == sorted(f"{looked_at['id']}/{key}" for key in ("p1", "p2"))
    assert "LOL" in page.said("visit-readings-0-value")
    assert press_on(crew, address(leak), page, visit__readings__0__value="64 %LEL").status_code == 303
    assert readings(book) == [("r2", "h2", "64 %LEL", None)]


def test_no_access_asks_for_no_places_and_contradicts_readings(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    crew = site(book).client(book.crew)
    answer = fill_in(crew, address(leak), **WHEN, visit__outcome="no_access", visit__readings__0__value="0 %LEL")
    page = form_page(answer)
    assert answer.status_code == 422
    assert "no access, and yet" in page.said("visit-outcome")
    assert press_on(crew, address(leak), page, visit__readings__0__value="").status_code == 303
    with book.store.reading() as tx:
        outcomes = list(tx.connection.execute(select(METADATA.tables["visit"].c.outcome)).scalars())
    assert sorted(outcomes) == ["looked", "no_access"]


def test_a_reading_at_a_place_of_no_kind_is_asked_what_the_place_is(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    answer = fill_in(crew, address(leak), **WHEN, visit__readings__0__value="5 %LEL")
    page = form_page(answer)
    assert answer.status_code == 422
    assert "This is needed" in page.said("visit-places-0-kind")
    assert press_on(crew, address(leak), page, visit__places__0__kind="surface").status_code == 303


def test_a_place_that_was_not_entered_is_kept_without_a_reading(
    book: m.Book, leak: str, looked_at: dict[str, Any]
) -> None:
    crew = site(book).client(book.crew)
    typed = {"visit__places__0__not_entered": "car parked over it"}
    assert fill_in(crew, address(leak), **WHEN | typed).status_code == 303
    assert rows(book, "visit_places", "key", "not_entered") == [("h1", "car parked over it")]


def test_who_may_not_log_a_visit_is_told_so_and_a_leak_elsewhere_is_not_there(book: m.Book, leak: str) -> None:
    elsewhere = m.leak(book, area=book.other_area)
    book.say(elsewhere)
    pages = site(book)
    asked = [(book.everyone, leak), (book.crew, elsewhere["id"])]
    assert [pages.client(who).get(address(of)).status_code for who, of in asked] == [403, 404]


def test_a_leak_with_more_holes_than_a_visit_may_look_at_shows_those_made_last(sqlite_store: Store) -> None:
    book = m.opened(sqlite_store)
    leak = m.leak(book)
    holes = [{"key": f"p{n}", "kind": "bar_hole", "label": f"hole {n}"} for n in range(1, 151)]
    made = (m.visit(leak["id"], places=holes, readings=[], happened=f"2026-03-0{day}") for day in (3, 4))
    book.say(leak, *made)
    page = site(book).client(book.crew).get(address(leak["id"])).text
    assert list(dict.fromkeys(map(int, re.findall(r'value="h(\d+)"', page)))) == list(range(101, 301))
