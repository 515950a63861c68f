"""A crew logs a repair on one page: the attempt, its lots, its people and its test, all or none."""

from typing import Any

import pytest
from sqlalchemy import select

from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.tables.metadata import METADATA
from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import site
from tests.web.everyone.read import link


def address(leak: str) -> str:
    return f"/leaks/{leak}/repair"


def rows_of(book: m.Book, table: str) -> list[Any]:
    with book.store.reading() as tx:
        return list(tx.connection.execute(select(METADATA.tables[table])))


TYPED: dict[str, str | list[str]] = {
    "repair__happened": ["2026-03-05", "10:02"],
    "repair__lasting": "permanent",
    "repair__method": "bolt-on clamp",
    "repair__cause": "corrosion_failure",
    "repair__hole_size": "1/16 in",
    "repair__pressure_found": "45 psi",
    "repair__pressure_installing": "20 psi",
    "repair__pressure_restored": "45 psi",
    "repair__outcome": "tight",
    "repair__remarks": "cut back to sound pipe",
}


def test_a_repair_with_its_lots_people_and_test_is_one_call(store: Store) -> None:
    book = m.opened(store)
    opened = m.leak(book)
    book.say(opened)
    leak = str(opened["id"])
    crew = site(book).client(book.crew)
    page = form_page(crew.get(address(leak)))
    saved = press_on(
        crew,
        address(leak),
        page,
        **TYPED,
        repair__materials__0__named="w-0118",
        repair__materials__0__used="2 rolls",
        repair__people__0__person=str(book.crew.person),
        repair__people__0__task="install clamp",
        test__kind_of_test="soap",
        test__result="tight",
        test__pressure="45 psi",
    )
    assert (saved.status_code, saved.location.rpartition("=")[2]) == (303, page.boxes["repair-id"][0])
    (attempt,), (test,) = rows_of(book, "repair_attempted"), rows_of(book, "tested")
    assert (attempt.method, attempt.hole_size_mm, round(attempt.pressure_found_kpa_gauge)) == (
        "bolt-on clamp",
        1.5875,
        310,
    )
    assert (test.attempt_id, test.kind_of_test, test.result, test.happened) == (
        attempt.id,
        "soap",
        "tight",
        "2026-03-05 10:02",
    )
    assert [(row.lot_id, row.named, row.used) for row in rows_of(book, "repair_attempted_materials")] == [
        (m.read_id(book.lot), None, "2 rolls")
    ]
    assert [(row.person_id, row.task) for row in rows_of(book, "repair_attempted_people")] == [
        (book.crew.person, "install clamp")
    ]
    assert [row.review for row in rows_of(book, "attempt")] == ["waiting"]


def test_the_number_to_come_stands_over_the_page_and_the_only_source_is_chosen(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    before = crew.get(address(leak)).text
    only = m.source(leak)
    book.say(only, m.attempt(leak, outcome="not_tight"))
    one = crew.get(address(leak))
    book.say(m.source(leak, component="coupling"))
    two = form_page(crew.get(address(leak)))
    assert ("Repair, attempt 1" in before, "No source of this leak is entered yet" in before) == (True, True)
    assert "Repair, attempt 2" in one.text
    assert (form_page(one).boxes["repair-source"], two.boxes["repair-source"]) == ([only["id"]], [""])
    assert "Source 1: service, threaded tee, steel, 3/4 in" in one.text


def test_a_wrong_unit_leaves_every_other_field_as_typed_and_is_kept_as_unfinished(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    typed = TYPED | {
        "repair__hole_size": "1/16 inn",
        "repair__materials__0__named": "W-0118",
        "repair__materials__0__used": "2 rolls",
        "repair__people__0__named": "a helper from Highfold",
        "test__kind_of_test": "soap",
        "test__result": "tight",
        "test__remarks": "no bubbles",
    }
    answer = fill_in(crew, address(leak), **typed)
    page = form_page(answer)
    shown = {name.replace("-", "__"): page.boxes[name] for name in (key.replace("__", "-") for key in typed)}
    assert answer.status_code == 422
    assert shown == {name: it if isinstance(it, list) else [it] for name, it in typed.items()}
    assert "inn" in page.said("repair-hole_size")
    assert (rows_of(book, "repair_attempted"), rows_of(book, "tested")) == ([], [])
    (left,) = of_person(book.store, book.crew.person)
    assert (left.because, left.form, [raw["kind"] for raw in left.raw]) == (
        "not_understood",
        address(leak),
        ["repair_attempted", "tested"],
    )


def test_what_was_left_unfinished_comes_back_with_its_lot_by_its_number(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    lot = {"repair__materials__0__named": "W-0118", "repair__materials__0__used": "2 rolls"}
    kept = form_page(fill_in(crew, address(leak), **TYPED | lot | {"repair__hole_size": "1/16 inn"}))
    again = f"{address(leak)}?unfinished={kept.boxes['repair-id'][0]}"
    page = form_page(crew.get(again))
    assert page.boxes["repair-materials-0-named"] == ["W-0118"]
    assert "inn" in page.said("repair-hole_size")
    saved = press_on(crew, address(leak), page, repair__hole_size="1/16 in")
    assert (saved.status_code, of_person(book.store, book.crew.person)) == (303, [])
    assert [row.lot_id for row in rows_of(book, "repair_attempted_materials")] == [m.read_id(book.lot)]


def materials_said(book: m.Book, leak: str, number: str, on: str) -> str:
    crew = site(book).client(book.crew)
    typed: dict[str, str | list[str]] = {"repair__materials__0__named": number, "repair__happened": [on, ""]}
    page = form_page(fill_in(crew, address(leak), press="check=one", **typed))
    return page.texts["repair-materials-0-heard"]


@pytest.mark.parametrize(
    ("number", "on", "heard"),
    [
        ("W-0118", "2026-09-29", "wrap tape, 2 in · use by 30 Sep 2026"),
        ("W-0118", "2026-09-30", "wrap tape, 2 in · use by 30 Sep 2026"),
        ("W-0118", "2026-10-01", "wrap tape, 2 in · was to be used until 30 Sep 2026: kept as used, and raised"),
        ("W-81?", "2026-03-05", "Not on the books here: kept as you read it, and raised."),
        ("", "2026-03-05", ""),
    ],
)
def test_the_book_says_of_a_number_what_it_is_and_whether_its_day_was_over(
    book: m.Book, leak: str, number: str, on: str, heard: str
) -> None:
    assert materials_said(book, leak, number, on) == heard


def test_a_number_that_is_not_on_the_books_is_kept_as_read_and_an_expired_lot_is_used_all_the_same(
    book: m.Book, leak: str
) -> None:
    old = {"kind": "lot_received", "id": m.new_id(), "area": book.area, "item": "primer", "lot_number": "P-1"}
    book.say(old | {"expires_on": "2026-03-04", "happened": "2025-06-01"})
    crew = site(book).client(book.crew)
    page = form_page(fill_in(crew, address(leak), press="add=repair-materials"))
    lots = {"repair__materials__0__named": "P-1", "repair__materials__1__named": "W-81?"}
    assert press_on(crew, address(leak), page, **TYPED | lots).status_code == 303
    assert [(row.lot_id, row.named) for row in rows_of(book, "repair_attempted_materials")] == [
        (m.read_id(old["id"]), None),
        (None, "W-81?"),
    ]
    assert sorted(row.code for row in rows_of(book, "gap")) == [
        "expired_lot_used",
        "lot_not_on_the_books",
        "no_test_after_pressure_change",
        "typed_long_after",
    ]


def twins(book: m.Book) -> list[str]:
    said = {"kind": "lot_received", "area": book.area, "item": "filler", "lot_number": "F-7", "happened": "2025-06-01"}
    lots = [said | {"id": m.new_id(), "expires_on": day} for day in ("2026-04-30", "2027-04-30")]
    book.say(*lots)
    return [lot["id"] for lot in lots]


def test_of_several_lots_of_one_number_the_page_asks_which_and_guesses_none(book: m.Book, leak: str) -> None:
    first, second = twins(book)
    crew = site(book).client(book.crew)
    asked = fill_in(crew, address(leak), **TYPED, repair__materials__0__named="f-7")
    page = form_page(asked)
    assert asked.status_code == 422
    assert page.offers["repair-materials-0-lot"] == [
        ("", "Choose"),
        (first, "F-7 · filler · use by 30 Apr 2026"),
        (second, "F-7 · filler · use by 30 Apr 2027"),
        ("none_of_them", "None of these, or nobody knows: keep the number as read"),
    ]
    assert "Several lots bear the number “f-7”." in page.said("repair-materials-0-lot")
    assert rows_of(book, "repair_attempted") == []
    (left,) = of_person(book.store, book.crew.person)
    assert left.raw[0]["materials"] == [{"key": "r1", "named": "f-7"}]
    assert press_on(crew, address(leak), page, repair__materials__0__lot=second).status_code == 303
    assert [row.lot_id for row in rows_of(book, "repair_attempted_materials")] == [m.read_id(second)]


def test_where_nobody_knows_which_of_several_lots_it_was_the_number_is_kept_as_read(book: m.Book, leak: str) -> None:
    twins(book)
    crew = site(book).client(book.crew)
    page = form_page(fill_in(crew, address(leak), **TYPED, repair__materials__0__named="F-7"))
    assert press_on(crew, address(leak), page, repair__materials__0__lot="none_of_them").status_code == 303
    assert [(row.lot_id, row.named) for row in rows_of(book, "repair_attempted_materials")] == [(None, "F-7")]


def test_a_repair_without_a_test_is_one_entry_and_half_a_test_is_asked_about(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    half = fill_in(crew, address(leak), **TYPED, test__pressure="45 psi")
    page = form_page(half)
    assert half.status_code == 422
    assert "This is needed" in page.said("test-kind_of_test")
    assert "This is needed" in page.said("test-result")
    assert press_on(crew, address(leak), page, test__pressure="").status_code == 303
    assert (len(rows_of(book, "repair_attempted")), rows_of(book, "tested")) == (1, [])


def test_what_is_rarely_asked_opens_by_itself_where_something_in_it_is_wrong(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    fold = '<details class="fold"{}>\n<summary>More about the repair</summary>'
    first = crew.get(address(leak)).text
    wrong = fill_in(crew, address(leak), **TYPED | {"repair__remarks": "", "repair__pipe_temperature": "57"}).text
    assert (fold.format("") in first, fold.format(" open") in first) == (True, False)
    assert fold.format(" open") in wrong


def test_who_may_not_log_a_repair_is_told_so_and_a_leak_elsewhere_is_not_there(book: m.Book, leak: str) -> None:
    elsewhere = m.leak(book, area=book.other_area)
    book.say(elsewhere)
    pages = site(book)
    asked = [(book.everyone, leak), (book.crew, elsewhere["id"]), (book.officer, elsewhere["id"])]
    # who holds every role in the makers is but an administrator on the books
    assert [pages.client(who).get(address(of)).status_code for who, of in asked] == [403, 404, 200]


def test_who_repaired_it_tested_it_too_where_others_are_named(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    test = {"test__kind_of_test": "soap", "test__result": "tight"}
    fill_in(crew, address(leak), **TYPED | test, repair__did__0__person=str(book.supervisor.person))
    entries = {row.id for table in ("repair_attempted", "tested") for row in rows_of(book, table)}
    did = [row.person_id for row in rows_of(book, "did") if row.entry_id in entries]
    assert did == [book.supervisor.person] * 2


@pytest.mark.parametrize("when", [["2036-01-01", "10:00"], ["", ""]])
def test_what_is_wrong_with_the_time_of_repair_and_test_together_is_said_once(
    book: m.Book, leak: str, when: list[str]
) -> None:
    crew = site(book).client(book.crew)
    test = {"test__kind_of_test": "soap", "test__result": "tight"}
    answer = fill_in(crew, address(leak), **TYPED | test | {"repair__happened": when})
    assert (answer.status_code, answer.text.count('class="error"')) == (422, 1)
    assert "1 thing could not be read" in answer.text


def test_a_page_that_is_sent_twice_logs_one_repair(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    page = form_page(crew.get(address(leak)))
    answers = [press_on(crew, address(leak), page, **TYPED) for _ in range(2)]
    assert [answer.status_code for answer in answers] == [303, 303]
    assert answers[0].location == answers[1].location
    assert len(rows_of(book, "repair_attempted")) == 1


def test_a_repair_goes_on_where_its_source_had_to_be_entered_first(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    repair = f"/leaks/{leak}/repair"
    first = link(crew.get(repair).text, "Add a source")
    added = fill_in(crew, first, source__happened=["2026-03-04", ""], source__part="service")
    assert (first, added.status_code, added.location) == (f"/leaks/{leak}/source?repair=next", 303, repair)
    assert "service" in crew.get(repair).text
    assert fill_in(crew, f"/leaks/{leak}/source", source__happened=["2026-03-04", ""]).location.startswith("/leaks/")
