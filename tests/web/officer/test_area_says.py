"""How soon an entry is to be typed and who accepts whose work: said once in an area, and shown beside the gaps."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

from repairlog.entries.entry import Moments
from repairlog.records.rebuild import check
from repairlog.records.tables.worked import GAP
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import site
from tests.web.everyone.read import link, text_of


def raised(book: m.Book) -> list[str]:
    return sorted(row["code"] for row in rows(book.store, GAP))


def test_what_is_said_of_typing_holds_for_what_comes_in_from_then_on(book: m.Book, leak: str) -> None:
    officer = site(book).client(book.officer)
    assert "That week is ours and no rule's." in text_of(officer.get("/gaps").text)
    late = Moments(received=m.RECEIVED + timedelta(days=2))  # some four days after the visit
    book.say(m.visit(leak), moments=late)
    at = f"/areas/{book.area}/typing-time"
    assert fill_in(officer, at, entry__happened="2026-03-06", entry__hours="72").status_code == 303
    assert "72 h after the work at the latest, 3 days" in text_of(officer.get("/gaps").text)
    assert raised(book) == []
    book.say(m.visit(leak), moments=late)
    book.say(m.visit(leak, typed_from="paper"), moments=late)
    assert raised(book) == ["keyed_from_paper_long_after", "typed_long_after"]
    sheet = text_of(officer.get(f"/leaks/{leak}").text)
    assert ("Keyed from paper by R. Tolland" in sheet, "Keyed from paper 4 days after" in sheet) == (True, True)
    assert check(book.store).differences == ()


def test_who_accepts_whose_work_is_said_once_and_judges_what_stands(book: m.Book, leak: str) -> None:
    attempt = m.attempt(leak)
    book.say(attempt, m.review(leak, attempt["id"]))
    officer = site(book).client(book.officer)
    at = f"/areas/{book.area}/own-acceptance"
    typed = {"entry__happened": "2026-03-06", "entry__reason": "there are two supervisors"}
    assert raised(book) == []
    assert fill_in(officer, at, entry__accepts="no", **typed).status_code == 303
    assert raised(book) == ["accepted_by_who_did_it"]
    assert (
        fill_in(officer, at, entry__accepts="yes", entry__happened="2026-03-07", entry__reason="one left").status_code
        == 303
    )
    assert raised(book) == []
    assert "may accept it, too: that is said once" in text_of(officer.get("/gaps").text)
    assert check(book.store).differences == ()


def test_it_is_said_from_the_page_of_the_area_and_from_the_form_of_whoever_looks_over_their_own_work(book, leak):
    attempt = m.attempt(leak)
    book.say(attempt, by=book.officer)
    officer, supervisor = (site(book).client(who) for who in (book.officer, book.supervisor))
    review, own = f"/leaks/{leak}/attempts/{attempt['id']}/review", f"/areas/{book.area}/own-acceptance"
    mine = "You worked on this repair yourself"
    asked = officer.get(review).text
    assert (mine in asked, mine in supervisor.get(review).text) == (True, False)
    said = {"entry__happened": "2026-03-06", "entry__reason": "there are three of us"}
    once = fill_in(officer, unescape(link(asked, "Say who accepts here")), entry__accepts="yes", **said)
    assert (once.status_code, once.location.partition("?")[0]) == (303, review)
    assert mine not in officer.get(review).text
    area = officer.get(f"/areas/{book.area}").text
    assert "may accept it, too: that is said once" in text_of(area)
    assert link(area, "Say who accepts a repair") == own
    assert fill_in(officer, own, entry__accepts="no", **said).location.partition("?")[0] == f"/areas/{book.area}"
    assert "here nobody accepts their own work: it is saved, and raised" in officer.get(review).text


def test_a_box_of_the_form_says_that_a_visit_is_keyed_from_paper(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    typed = {"repair__happened": "2026-03-04", "repair__method": "clamp", "repair__lasting": "temporary"}
    typed |= {"repair__cause": "other_cause", "repair__outcome": "tight", "test__kind_of_test": "soap"}
    answer = fill_in(crew, f"/leaks/{leak}/repair", **typed, test__result="tight", repair__typed_from="paper")
    assert answer.status_code == 303
    sheet = text_of(crew.get(f"/leaks/{leak}").text)
    assert sheet.count("Keyed from paper by M. Aldous") == 2, "the repair and its test are of one page"
