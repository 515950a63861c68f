"""A grade is set by one touch: the grades that the area's rulebook knows, on every form that asks for one, and any
other text beside them."""

from __future__ import annotations

import re
from html import unescape

import pytest
from flask.testing import FlaskClient

from repairlog.records.store import Store
from tests.intake.lines import sealed
from tests.makers import book as m
from tests.makers.form_page import form_page, press_on
from tests.makers.site import site

DAY = ["2026-03-04", ""]
TOUCH = re.compile(r'<input type="radio"(?: class="another")? name="([^"]*-grade)" value="([^"]*)"( checked)?>([^<]*)<')
OTHER = re.compile(r'<input[^>]*class="other"[^>]*>')


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """Of two areas, the first of which has a rulebook with a grade between two of the usual three."""
    opened = m.opened(sqlite_store)
    rulebook = opened.store.rulebooks.offered()["us-ma"]
    opened.say(m.adopted(opened.area, rulebook="us-ma", digest=rulebook.digest, from_on="2026-01-01"))
    return opened


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.officer)


def a_leak(book: m.Book, **fields: str) -> str:
    said = m.leak(book, **fields)
    book.say(said)
    return str(said["id"])


def touches(page: str) -> dict[str, bool]:
    """What one touch chooses, by what stands beside it, and whether it is chosen."""
    return {unescape(words).strip(): bool(checked) for _name, _value, checked, words in TOUCH.findall(page)}


def typed_beside(page: str) -> str:
    (box,) = OTHER.findall(page)
    return unescape(re.search(r'value="([^"]*)"', box)[1])


def saved_grade(book: m.Book, crew: FlaskClient, at: str, grade: list[str]) -> dict[str, object]:
    """What was sealed of the grade that was sent from the form there as a browser sends it: what is touched, then what
    is typed."""
    page = form_page(crew.get(at))
    answer = press_on(crew, at, page, grade__happened=DAY, grade__grade=grade)
    assert answer.status_code == 303, answer.text
    said = sealed(book.store, page.boxes["grade-id"][0])["said"]
    return {name: said[name] for name in ("grade", "rank") if name in said}


def test_every_form_that_asks_for_a_grade_offers_those_of_the_area_by_touch_and_any_other_text(book, crew):
    """Source of the four grades: 220 CMR 114.04, as the rulebook cites it, 3E before 3."""
    leak = a_leak(book)
    grade = m.grade(leak, grade="3E", rank=3)
    book.say(grade)
    pages = {
        "grade": (crew.get(f"/leaks/{leak}/grade").text, ["1", "2", "3E", "3", "Another"], []),
        "visit": (crew.get(f"/leaks/{leak}/visit").text, ["1", "2", "3E", "3", "None now", "Another"], ["None now"]),
        "opening": (crew.get("/leaks/new").text, ["1", "2", "3E", "3", "Not said", "Another"], ["Not said"]),
        "right": (
            crew.get(f"/leaks/{leak}/entries/{grade['id']}/right").text,
            ["1", "2", "3E", "3", "Another"],
            ["3E"],
        ),
    }
    for shown, offered, chosen in pages.values():
        assert list(touches(shown)) == offered
        assert [words for words, is_chosen in touches(shown).items() if is_chosen] == chosen
        assert typed_beside(shown) == ""


def test_where_no_rulebook_holds_the_usual_three_are_offered(book, crew):
    leak = a_leak(book, area=book.other_area)
    assert list(touches(crew.get(f"/leaks/{leak}/grade").text)) == ["1", "2", "3", "Another"]


@pytest.mark.parametrize(
    ("sent", "grade"),
    [
        (["2", ""], {"grade": "2"}),
        (["", "C+"], {"grade": "C+"}),
        (["C+"], {"grade": "C+"}),
        (["2", "C+"], {"grade": "2"}),
        (["", " 2 "], {"grade": "2"}),
    ],
    ids=["touched", "typed", "typed and nothing touched", "touched last, and the text is hidden", "typed in the box"],
)
def test_what_is_touched_or_typed_is_saved(book, crew, sent, grade):
    assert saved_grade(book, crew, f"/leaks/{a_leak(book)}/grade", sent) == grade


def test_a_grade_of_the_rulebook_brings_its_rank_from_every_form(book, crew):
    leak = a_leak(book)
    assert saved_grade(book, crew, f"/leaks/{leak}/grade", ["3E", ""]) == {"grade": "3E", "rank": 3}
    page = form_page(crew.get("/leaks/new"))
    opened = {"leak__area": book.area, "leak__happened": DAY, "grade__happened": DAY}
    assert press_on(crew, "/leaks/new", page, **opened, grade__grade=["3E", ""]).status_code == 303
    said = sealed(book.store, page.boxes["grade-id"][0])["said"]
    assert (said["grade"], said["rank"]) == ("3E", 3)
    elsewhere = form_page(crew.get("/leaks/new"))
    opened |= {"leak__area": book.other_area}
    assert press_on(crew, "/leaks/new", elsewhere, **opened, grade__grade=["3E", ""]).status_code == 303
    assert "rank" not in sealed(book.store, elsewhere.boxes["grade-id"][0])["said"]


def test_what_was_typed_stands_in_its_box_again_and_is_chosen(book, crew):
    at = f"/leaks/{a_leak(book)}/grade"
    again = press_on(crew, at, form_page(crew.get(at)), grade__happened=["", ""], grade__grade=["", "C+"])
    assert again.status_code == 422
    assert (typed_beside(again.text), touches(again.text)["Another"]) == ("C+", True)
    touched = press_on(crew, at, form_page(crew.get(at)), grade__happened=["", ""], grade__grade=["3E", "C+"])
    assert (typed_beside(touched.text), touches(touched.text)["3E"]) == ("", True)
