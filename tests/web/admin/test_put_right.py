"""What was said wrong of people and areas is put right on their pages, and nothing of it is lost."""

from __future__ import annotations

import re

import pytest

from repairlog.access import EVERYTHING
from repairlog.records.queries.settings import areas
from tests.makers import book as m
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import site


def in_words(page: str) -> str:
    """The page without its marks."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page))


def test_a_name_that_was_written_wrong_is_corrected_and_stood_before(book: m.Book) -> None:
    added = m.person("K. Amess")
    book.say(added)
    admin, id = site(book).client(book.everyone), added["id"]
    assert f"/books/{id}/entries/{id}/right" in admin.get(f"/people/{id}").text
    saved = fill_in(admin, f"/books/{id}/entries/{id}/right", entry__name="K. Ames", right__reason="misspelt")
    page = admin.get(saved.location).text
    assert saved.status_code == 303
    assert "<h1>K. Ames</h1>" in page
    assert '<del class="corrected">K. Amess</del>' in page
    assert ("misspelt" in page, "Take it back" in page) == (True, True)


def test_an_evaluation_made_void_lets_nobody_do_the_task_and_can_be_restored(book: m.Book) -> None:
    crew = str(book.crew.person)
    evaluated = m.qualified(crew, until_on="2099-12-31")
    book.say(evaluated)
    officer, id = site(book).client(book.officer), evaluated["id"]
    fill_in(officer, f"/books/{crew}/entries/{id}/void", void__reason="another person's")
    page = officer.get(f"/people/{crew}").text
    assert "No evaluation is on the books." in page
    (restore,) = re.findall(r'<a href="(/books/[^"]+/void)">Restore</a>', page)
    fill_in(officer, restore, void__reason="it was theirs after all")
    assert "No evaluation is on the books." not in officer.get(f"/people/{crew}").text


def test_what_counts_as_the_lower_limit_in_an_area_is_changed_with_what_that_touches_said_before(book: m.Book) -> None:
    book.say(m.leak(book), m.leak(book))
    admin = site(book).client(book.everyone)
    at = f"/books/{book.area}/entries/{book.area}/right"
    assert "The 2 leaks of this area are worked out again with it." in admin.get(at).text
    saved = fill_in(admin, at, entry__lel_basis="4.4", right__reason="the state's own rule")
    assert "4.4 % methane" in in_words(admin.get(saved.location).text)
    with book.store.reading() as tx:
        assert {area.code: area.lel_basis for area in areas(EVERYTHING, tx)} == {"ES": "4.4", "HF": "5.0"}


def test_a_correction_that_changes_nothing_is_asked_about_and_one_that_cannot_be_read_still_stands(
    book: m.Book,
) -> None:
    admin = site(book).client(book.everyone)
    at = f"/books/{book.area}/entries/{book.area}/right"
    same = fill_in(admin, at, right__reason="none")
    wrong = fill_in(admin, at, entry__elevation="high up", right__reason="surveyed")
    assert (same.status_code, wrong.status_code) == (422, 422)
    assert form_page(wrong).boxes["entry-elevation"] == ["high up"]


@pytest.mark.parametrize("who", ["crew", "supervisor"])
def test_who_may_not_say_it_is_offered_no_way_to_put_it_right(book: m.Book, who: str) -> None:
    crew = str(book.crew.person)
    book.say(m.qualified(crew))
    client = site(book).client(getattr(book, who))
    assert "/right" not in client.get(f"/people/{crew}").text
