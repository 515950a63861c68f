"""A page's form, drawn, looked over and posted: whatever happens, what was typed still stands."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from repairlog.records.store import Store
from tests.intake.lines import is_there, kept, sealed, size
from tests.makers import book as m
from tests.makers.book import Book
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.site import site

OPENING = "/leaks/new"


def typed(**more: str | list[str]) -> dict[str, str | list[str]]:
    """A source as somebody types it, measure and all."""
    source = {"component": "threaded tee", "part": "service", "size": "3/4 in", "pressure": "45 psi"}
    named = {f"source__{name}": value for name, value in source.items()}
    return {**named, "source__happened": ["2026-03-03", "09:05"], "source__installed_year": "1974", **more}


def test_what_is_saved_is_what_was_typed(crew: FlaskClient, address: str, leak: str, book: Book) -> None:
    page = form_page(crew.get(address))
    answer = press_on(crew, address, page, **typed())
    id = page.boxes["source-id"][0]
    assert (answer.status_code, answer.location) == (303, f"/leaks/{leak}?saved={id}")
    assert sealed(book.store, id)["said"] == {
        "kind": "source_added",
        "version": 1,
        "id": id,
        "leak": leak,
        "component": "threaded tee",
        "part": "service",
        "happened": "2026-03-03 09:05",
        "size": "3/4 in",
        "pressure": "45 psi",
        "installed_year": 1974,
    }


def test_whoever_saves_it_did_it_unless_others_are_named(crew: FlaskClient, address: str, book: Book) -> None:
    own, others = form_page(crew.get(address)), form_page(crew.get(address))
    person = {"source-did-0-named": "a neighbour", "source-did-0-key": "r1"}
    press_on(crew, address, own, **typed())
    press_on(crew, address, others, **typed(), **person)
    assert [sealed(book.store, page.boxes["source-id"][0])["by"]["did"] for page in (own, others)] == [
        [{"key": "d1", "person": str(book.crew.person)}],
        [{"key": "r1", "named": "a neighbour"}],
    ]


def test_a_wrong_unit_leaves_every_other_field_as_typed(crew: FlaskClient, address: str, book: Book) -> None:
    page = form_page(crew.get(address))
    answer = press_on(crew, address, page, **typed(source__pressure="45 psy", source__location="by the\ngate"))
    again = form_page(answer)
    assert answer.status_code == 422
    expected = page.boxes | {
        "source-component": ["threaded tee"],
        "source-part": ["service"],
        "source-size": ["3/4 in"],
        "source-pressure": ["45 psy"],
        "source-happened": ["2026-03-03", "09:05"],
        "source-installed_year": ["1974"],
        "source-location": ["by the\ngate"],
    }
    assert again.boxes == expected
    assert again.said("source-pressure").startswith("The unit “psy” is not known here.")
    assert again.said("source-size") == "0.75 in, 19.05 mm"
    assert 'href="#source-pressure">Normal operating pressure</a>: The unit' in answer.text
    assert kept(book.store) == {page.boxes["source-id"][0]: "not_understood"}


def test_what_was_left_unfinished_is_gone_once_it_is_saved(crew: FlaskClient, address: str, book: Book) -> None:
    answer = fill_in(crew, address, **typed(source__pressure="45 psy"))
    assert press_on(crew, address, form_page(answer), source__pressure="45 psi").status_code == 303
    assert kept(book.store) == {}


def test_an_empty_form_says_of_each_needed_box_that_it_is(crew: FlaskClient, leak: str) -> None:
    page = form_page(fill_in(crew, f"/leaks/{leak}/grade"))
    assert {id: said for id, said in page.texts.items() if id.endswith("-said") and "left empty" in said} == {
        f"grade-{name}-said": "This is needed and was left empty. Fill it in; nothing else that you typed is lost."
        for name in ("happened", "grade")
    }


def test_one_more_row_keeps_the_rest_and_posts_nothing(officer: FlaskClient, book: Book) -> None:
    before, page = size(book.store), form_page(officer.get(OPENING))
    data = {"leak__town": "Harrowsedge", "leak-outside_numbers-0-what": "call", "leak-area": book.area}
    answer = press_on(officer, OPENING, page, press="add=leak-outside_numbers", **data, grade__reason="smelt it")
    assert answer.status_code == 200
    assert form_page(answer).boxes == page.boxes | {
        "leak-town": ["Harrowsedge"],
        "leak-area": [book.area],
        "leak-outside_numbers-0-what": ["call"],
        "leak-outside_numbers-1-key": ["r2"],
        "leak-outside_numbers-1-what": [""],
        "leak-outside_numbers-1-number": [""],
        "grade-reason": ["smelt it"],
    }
    assert 'autofocus id="leak-outside_numbers-1-what"' in answer.text
    assert (size(book.store), kept(book.store)) == (before, {})


@pytest.mark.parametrize("wanted", ["", "leak", "leak-town", "leak-nothing", "grade-did", "outside_numbers", "-"])
def test_a_row_of_what_is_no_list_changes_nothing(officer: FlaskClient, wanted: str) -> None:
    page = form_page(officer.get(OPENING))
    answer = press_on(officer, OPENING, page, press=f"add={wanted}")
    assert (answer.status_code, form_page(answer).boxes) == (200, page.boxes)


def test_each_measure_is_shown_as_it_is_read_and_nothing_is_posted(crew: FlaskClient, address: str, book: Book) -> None:
    before = size(book.store)
    answer = fill_in(crew, address, press="check=all", **typed(source__size="3/16", source__pressure="7 in wc"))
    page = form_page(answer)
    assert answer.status_code == 200
    assert page.said("source-pressure") == "7 in wc gauge, 1.744 kPa"
    assert page.said("source-size") == (
        "“3/16” has no unit. Write which is meant, such as: 3/16 in, 3/16 mm. Keep it as I wrote it, without a figure"
    )
    assert page.boxes["source-component"] == ["threaded tee"]
    assert (size(book.store), kept(book.store)) == (before, {})


def test_a_measure_is_heard_by_the_height_of_its_area(officer: FlaskClient, book: Book) -> None:
    said = {area: m.leak(book, area=area) for area in (book.area, book.other_area)}
    book.say(*said.values())
    heard = {}
    for area, each in said.items():
        page = form_page(fill_in(officer, f"/leaks/{each['id']}/source", press="check=all", source__pressure="-90 kPa"))
        heard[area] = page.said("source-pressure")
    assert heard[book.area] == "-90 kPa gauge"
    assert heard[book.other_area].startswith("“-90 kPa” is below a full vacuum.")


def test_enter_looks_over_and_saves_nothing(crew: FlaskClient, address: str) -> None:
    text = crew.get(address).text
    first = text[text.index('<form id="entering"') :].partition("<button")[2].partition(">")[0]
    assert first.split() == ["hidden", 'name="check"', 'value="all"', 'tabindex="-1"']


def test_a_measure_that_nobody_can_read_is_kept_as_written_where_the_person_insists(
    crew: FlaskClient, address: str, book: Book
) -> None:
    page = form_page(fill_in(crew, address, **typed(source__pressure="a good push")))
    answer = press_on(crew, address, page, source__kept_as_text="pressure")
    line = sealed(book.store, page.boxes["source-id"][0])
    assert answer.status_code == 303
    assert (line["said"]["pressure"], "pressure" in line["understood"]) == ("a good push", False)
    assert line["said"]["kept_as_text"] == [{"key": "k1", "field": "pressure"}]


def test_insisting_is_offered_for_what_cannot_be_read_alone_and_stays_ticked(crew: FlaskClient, address: str) -> None:
    first = fill_in(crew, address, **typed(source__pressure="a good push", source__installed_year="long ago"))
    assert (first.text.count("Keep it as I wrote it"), form_page(first).boxes["source-kept_as_text"]) == (1, [])
    second = press_on(crew, address, form_page(first), source__kept_as_text="pressure")
    page = form_page(second)
    assert second.status_code == 422
    assert page.boxes["source-kept_as_text"] == ["pressure"]
    assert page.said("source-pressure") == "Keep it as I wrote it, without a figure"
    assert page.said("source-installed_year").startswith("“long ago” is no whole number.")


def test_saving_the_same_form_twice_is_saving_it_once(crew: FlaskClient, address: str, book: Book) -> None:
    page = form_page(crew.get(address))
    answers = [press_on(crew, address, page, **typed()) for _turn in range(2)]
    before = size(book.store)
    answers.append(press_on(crew, address, page, **typed()))
    assert {(each.status_code, each.location) for each in answers} == {(303, answers[0].location)}
    assert size(book.store) == before


def test_going_back_and_saving_something_else_changes_nothing_and_says_both(
    crew: FlaskClient, address: str, book: Book
) -> None:
    page = form_page(crew.get(address))
    press_on(crew, address, page, **typed())
    answer = press_on(crew, address, page, **typed(source__component="valve"))
    assert answer.status_code == 409
    assert "threaded tee" in answer.text
    assert "valve" in answer.text
    assert sealed(book.store, page.boxes["source-id"][0])["said"]["component"] == "threaded tee"


def test_a_choice_that_is_none_of_the_page_s_is_told_with_the_words_of_the_page(
    crew: FlaskClient, address: str
) -> None:
    page = form_page(fill_in(crew, address, **typed(source__part="the_moon")))
    assert page.said("source-part") == (
        "“the_moon” is none of the answers here. "
        "Choose one of: Main, Service, Meter set, Customer's piping, Station, Transmission line, Other."
    )
    assert page.boxes["source-part"] == ["the_moon"]


def test_without_its_hidden_id_a_form_is_told_so_and_gets_another(crew: FlaskClient, address: str, book: Book) -> None:
    for none in ("", "not an id", "019cbec3-7c40-4a10-8b1c-2f7f1d2c3b4a"):
        answer = fill_in(crew, address, **typed(source__id=none))
        assert answer.status_code == 422
        assert "is kept as unfinished" not in answer.text or "-4a10-" in none
        assert press_on(crew, address, form_page(answer)).status_code == (422 if "-4a10-" in none else 303)


def test_too_much_is_told_and_still_stands_there(officer: FlaskClient, book: Book) -> None:
    rows = {f"leak-outside_numbers-{place}-what": f"n{place}" for place in range(300)}
    answer = fill_in(officer, OPENING, leak__area=book.area, leak__location="x" * 1001, leak__town="y" * 201, **rows)
    page = form_page(answer)
    assert answer.status_code == 422
    assert page.said("leak-location").startswith("The text has 1001 characters; 1000 is the most.")
    assert page.boxes["leak-location"] == ["x" * 1001]
    assert page.said("leak-town").startswith("The text has 201 characters; 200 is the most.")
    assert "300 rows came; 200 is the most of one entry." in page.texts["leak-outside_numbers"]
    assert page.boxes["leak-outside_numbers-299-what"] == ["n299"]


@pytest.mark.parametrize(
    "name", ["leak-outside_numbers-²-what", f"leak-outside_numbers-{'9' * 5000}-what", "leak-outside_numbers--1-what"]
)
def test_a_box_that_is_none_of_the_page_s_is_passed_over(officer: FlaskClient, book: Book, name: str) -> None:
    page = form_page(officer.get(OPENING))
    answer = press_on(officer, OPENING, page, press="check=all", **{name: "x"})
    assert (answer.status_code, form_page(answer).boxes) == (200, page.boxes)


def test_what_cannot_be_seen_or_kept_is_told(crew: FlaskClient, address: str) -> None:
    page = form_page(fill_in(crew, address, **typed(source__component="te\x00e", source__coating="\x07")))
    assert page.said("source-component").startswith("The text holds characters that cannot be seen or kept.")
    assert page.said("source-coating").startswith("The text holds characters that cannot be seen or kept.")


def test_an_hour_left_out_is_not_invented(crew: FlaskClient, address: str, book: Book) -> None:
    page = form_page(crew.get(address))
    press_on(crew, address, page, **typed(source__happened=["2026-03-03", ""]))
    line = sealed(book.store, page.boxes["source-id"][0])
    assert line["said"]["happened"] == "2026-03-03"
    assert {name: line["understood"].get(name) for name in ("happened_on", "happened_at")} == {
        "happened_on": "2026-03-03",
        "happened_at": None,
    }


def test_an_hour_that_comes_twice_asks_which(crew: FlaskClient, address: str, book: Book) -> None:
    answer = fill_in(crew, address, **typed(source__happened=["2025-11-02", "01:30"]))
    page = form_page(answer)
    assert answer.status_code == 422
    assert page.offers["source-happened"] == [
        ("", "Choose"),
        ("-04:00", "The first time: before the clocks were put back (-04:00)"),
        ("-05:00", "The second time: after the clocks were put back (-05:00)"),
    ]
    assert press_on(crew, address, page, source__happened=["2025-11-02", "01:30", "-05:00"]).status_code == 303
    assert sealed(book.store, page.boxes["source-id"][0])["understood"]["happened_at"] == "2025-11-02T06:30:00.000Z"


def test_the_zone_of_the_area_counts_whoever_types_it(officer: FlaskClient, book: Book) -> None:
    at = {}
    for area in (book.area, book.other_area):
        page = form_page(officer.get(OPENING))
        press_on(officer, OPENING, page, leak__area=area, leak__happened=["2026-03-03", "09:05"])
        at[area] = sealed(book.store, page.boxes["leak-id"][0])["understood"]["happened_at"]
    assert at == {book.area: "2026-03-03T14:05:00.000Z", book.other_area: "2026-03-03T16:05:00.000Z"}


def test_an_offset_chosen_for_another_night_moves_nothing(officer: FlaskClient, book: Book) -> None:
    page = form_page(officer.get(OPENING))
    night = ["2025-11-03", "01:30", "-06:00"]
    press_on(officer, OPENING, page, leak__area=book.other_area, leak__happened=night)
    assert sealed(book.store, page.boxes["leak-id"][0])["said"]["happened"] == "2025-11-03 01:30"


def test_a_day_that_no_picker_shows_stands_there_as_it_was_typed(crew: FlaskClient, address: str) -> None:
    page = form_page(fill_in(crew, address, **typed(source__happened="the day after the storm")))
    assert page.boxes["source-happened"] == ["the day after the storm"]
    assert page.said("source-happened").startswith("No day or time can be read in “the day after the storm”.")


def test_an_optional_part_that_nobody_filled_in_is_left_out(officer: FlaskClient, book: Book) -> None:
    page = form_page(officer.get(OPENING))
    answer = press_on(officer, OPENING, page, leak__area=book.area, leak__happened=["2026-03-03", ""])
    assert answer.status_code == 303
    assert is_there(book.store, page.boxes["leak-id"][0])
    assert not is_there(book.store, page.boxes["grade-id"][0])


def test_the_parts_of_a_page_are_posted_together_and_name_each_other(officer: FlaskClient, book: Book) -> None:
    page = form_page(officer.get(OPENING))
    press_on(
        officer,
        OPENING,
        page,
        leak__area=book.area,
        leak__happened=["2026-03-03", ""],
        grade__grade="2",
        grade__happened=["2026-03-03", "08:40"],
    )
    assert sealed(book.store, page.boxes["grade-id"][0])["said"] == {
        "kind": "grade_set",
        "version": 1,
        "id": page.boxes["grade-id"][0],
        "leak": page.boxes["leak-id"][0],
        "happened": "2026-03-03 08:40",
        "grade": "2",
    }


def test_the_parts_of_a_page_are_posted_all_or_none(officer: FlaskClient, book: Book) -> None:
    before = size(book.store)
    answer = fill_in(officer, OPENING, leak__area=book.area, leak__happened=["2026-03-03", ""], grade__reason="odor")
    page = form_page(answer)
    assert (answer.status_code, size(book.store)) == (422, before)
    assert page.said("grade-grade").startswith("This is needed and was left empty.")
    assert page.said("leak-happened") == ""
    assert 'href="#grade-grade">Grade or class code</a>' in answer.text


def test_a_complaint_of_a_row_names_the_list_the_row_and_the_box(officer: FlaskClient, book: Book) -> None:
    rows = {"leak-outside_numbers-0-number": "1", "leak-outside_numbers-1-what": "call"}
    answer = fill_in(officer, OPENING, leak__area=book.area, leak__happened=["2026-03-03", ""], **rows)
    assert 'href="#leak-outside_numbers-1-number">Numbers that others know it by, row 2: Number</a>' in answer.text
    assert form_page(answer).said("leak-outside_numbers-1-number").startswith("This is needed")


def test_a_page_without_the_token_of_its_form_posts_nothing(crew: FlaskClient, address: str, book: Book) -> None:
    before = size(book.store)
    answer = fill_in(crew, address, **typed(csrf_token="forged"))
    assert (answer.status_code, size(book.store)) == (400, before)


def test_while_the_book_is_busy_the_form_stays_as_typed(sqlite_store: Store, sqlite_url: str) -> None:
    book = m.opened(sqlite_store)
    said = m.leak(book)
    book.say(said)
    crew, address = site(book).client(book.crew), f"/leaks/{said['id']}/source"
    page = form_page(crew.get(address))
    with sqlite_store.writing():
        answer = press_on(crew, address, page, **typed())
    assert answer.status_code == 503
    assert "What you typed still stands below." in answer.text
    assert form_page(answer).boxes["source-component"] == ["threaded tee"]
    assert press_on(crew, address, form_page(answer)).status_code == 303
