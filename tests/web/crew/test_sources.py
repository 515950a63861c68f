"""A source that turns out otherwise than it was told: said on a page, read on the sheet beside what was told first."""

from __future__ import annotations

import html
import re

import pytest
from flask.testing import FlaskClient

from tests.intake.lines import size
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site
from tests.web.everyone.read import entries_of, link, text_of


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


@pytest.fixture
def source(book: m.Book, leak: str) -> str:
    """A steel service with coal tar, and a repair on it at 10:02."""
    found = m.source(leak, coating="coal tar")
    book.say(found, m.attempt(leak, source=found["id"]))
    return str(found["id"])


def facts(client: FlaskClient, leak: str) -> list[str]:
    head = client.get(f"/leaks/{leak}").text.partition('class="facts">')[2].partition("</div>")[0]
    return [text_of(each) for each in re.findall(r"<span>(.*?)</span>", head)]


def test_a_source_is_told_as_found_beside_as_first_told(
    crew: FlaskClient, book: m.Book, leak: str, source: str
) -> None:
    dig = d.dig(book, [leak])
    book.say(dig)
    at = f"/leaks/{leak}/sources/{source}/otherwise"
    assert link(crew.get(f"/leaks/{leak}").text, "Say what it turned out to be") == at
    page = form_page(crew.get(f"{at}?dig={dig['id']}"))
    assert (page.boxes["source-seen_in_dig"], page.boxes["source-how_known"]) == ([dig["id"]], ["seen_in_the_dig"])
    assert page.said("source-material") == "until now: Steel"
    typed = {"source__material": "plastic_pe", "source__size": "1 in", "source__defect": "crack"}
    saved = fill_in(crew, f"{at}?dig={dig['id']}", source__happened=["2026-03-05", "10:30"], **typed)
    assert saved.status_code == 303
    assert facts(crew, leak)[3:] == [
        "Source 1: service, threaded tee, plastic, polyethylene, 1 in, normally 45 psi gauge (310 kPa)",
        "Source 1, as first told: steel, 3/4 in",
    ]
    entries = entries_of(crew.get(f"/leaks/{leak}").text)
    first = next(each for each in entries if "threaded tee, steel" in each)
    found = next(each for each in entries if "as found" in each)
    assert "Source 1: service, threaded tee, steel as first told" in first
    assert "Source 1 as found: service, threaded tee, plastic, polyethylene" in found
    assert "Nominal size 1 in" in found
    assert "How it is known Seen in the dig" in found
    assert "The dig in which it was seen Dig 1" in found
    assert "material of the pipe: steel nominal size: 3/4 in what it is: nothing" in found


def test_what_is_worked_out_for_a_repair_goes_by_what_was_known_when_it_was_made(
    crew: FlaskClient, book: m.Book, leak: str, source: str
) -> None:
    book.say(m.otherwise(leak, source, happened="2026-03-05 10:02", material="steel", size="2 in"))
    book.say(m.attempt(leak, source=source, happened="2026-03-05 10:01"))
    tapes = re.findall(r'href="(/figures/wrap[^"]*)"', crew.get(f"/leaks/{leak}").text)
    found = [re.search(r"od=([0-9.]+)", html.unescape(each)) for each in tapes]
    # outside diameters of NPS 3/4 and 2: ASME B36.10M
    assert sorted(each[1] for each in found if each) == ["1.05", "2.375"]


def test_forms_and_lists_name_a_source_as_it_is_known_now(
    crew: FlaskClient, book: m.Book, leak: str, source: str
) -> None:
    place = d.place(book, outside_numbers=[{"key": "n1", "what": "premise", "number": "77-1"}])
    book.say(place, m.otherwise(leak, source, place=place["id"]))
    offered = text_of(crew.get(f"/leaks/{leak}/repair").text)
    assert "Source 1: main, threaded tee, plastic, polyethylene, 3/4 in" in offered
    assert "Quarry Lane" in crew.get("/leaks?number=77-1").text


@pytest.mark.parametrize(
    ("seen", "line"),
    [
        ({"step__outside": "bare"}, "Source 1 is told to be coal tar, and was seen bare"),
        ({"step__outside": "coated", "step__coating": "wax"}, "Source 1 is told to be coal tar, and was seen wax"),
        ({"step__outside": "coated", "step__coating": "Coal tar"}, ""),
    ],
)
def test_a_pipe_that_was_seen_otherwise_leads_to_where_that_is_said(
    crew: FlaskClient, book: m.Book, leak: str, source: str, seen: dict[str, str], line: str
) -> None:
    dig = d.dig(book, [leak])
    book.say(dig)
    at = f"/leaks/{leak}/digs/{dig['id']}/pipe"
    way = f"/leaks/{leak}/sources/{source}/otherwise?dig={dig['id']}"
    page = crew.get(at).text
    assert "Source 1: service, threaded tee, steel, 3/4 in, coal tar" in text_of(page)
    assert link(page, "It is otherwise than that") == way
    saved = fill_in(crew, at, step__happened=["2026-03-05", "09:45"], step__source=source, **seen)
    sheet = crew.get(saved.location).text
    assert (line in text_of(sheet), sheet.count(html.escape(way))) == ((True, 2) if line else (True, 0))
    if line:
        book.say(m.otherwise(leak, source, coating=seen.get("step__coating", "bare")))
        assert "was seen" not in text_of(crew.get(f"/leaks/{leak}").text)


def test_what_says_of_nothing_that_it_is_otherwise_is_sent_back(
    crew: FlaskClient, book: m.Book, leak: str, source: str
) -> None:
    before = size(book.store)
    at = f"/leaks/{leak}/sources/{source}/otherwise"
    answer = fill_in(crew, at, source__happened="2026-03-05", source__remarks="looked again")
    assert (answer.status_code, size(book.store)) == (422, before)
    assert "Nothing here says what is otherwise." in answer.text
    assert form_page(answer).boxes["source-remarks"] == ["looked again"]


def test_a_source_of_another_leak_is_not_there(crew: FlaskClient, book: m.Book, leak: str, source: str) -> None:
    other = m.leak(book)
    book.say(other)
    assert crew.get(f"/leaks/{other['id']}/sources/{source}/otherwise").status_code == 404
