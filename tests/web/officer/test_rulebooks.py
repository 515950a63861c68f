"""Rulebooks on pages: the list of them, and one printed."""

from __future__ import annotations

import re

import pytest

from tests.makers.site import site
from tests.web.everyone.read import rows_of, text_of


@pytest.fixture
def officer(book):
    return site(book).client(book.officer)


def test_the_list_has_every_rulebook_and_says_which_is_only_proposed(officer):
    rows = rows_of(officer.get("/rulebooks").text)
    assert len([row for row in rows if "us-" in row or "gb" in row]) == 11
    assert [row for row in rows if "Saltmarsh practice" in row]  # of the operator's own folder
    assert [row for row in rows if "proposed, not law" in row and "us-federal-2023" in row]


def test_a_rulebook_is_printed_with_clause_and_mark_of_each_rule(officer):
    page = text_of(officer.get("/rulebooks/us-guide").text)
    assert "Repair: 1 calendar year, not exceeding 15 months, counted from the report" in page
    assert "from memory, not from the text" in page
    assert "This is a proposal, not law." not in page


def test_a_proposal_says_so_before_anything_else(officer):
    page = text_of(officer.get("/rulebooks/us-federal-2023").text)
    assert page.index("This is a proposal, not law.") < page.index("Grade 1 (rank 1)")


def test_on_a_day_it_has_the_rules_of_that_day(officer):
    before, after = (officer.get(f"/rulebooks/us-federal?on=2025-10-{day}").text for day in ("08", "09"))
    assert 'id="annual-report-before-october-2025"' in before
    assert 'id="annual-report-before-october-2025"' not in after
    assert "As in force on 9 Oct 2025" in text_of(after)


def test_what_is_no_day_is_told_beside_its_box_and_nothing_is_left_out(officer):
    page = officer.get("/rulebooks/us-federal?on=soon").text
    assert "That is no day; write it like 2026-01-31." in text_of(page)
    assert 'value="soon"' in page
    assert 'id="annual-report-before-october-2025"' in page


def test_only_what_is_to_be_confirmed_is_a_list_to_go_through(officer):
    page = officer.get("/rulebooks/us-guide?only=unconfirmed").text
    rules = re.findall(r'<div class="note( gap)?" id="([^"]+)"', page)
    assert ("", "survey-elsewhere") not in rules
    assert (" gap", "repair-2") in rules
    assert {mark for mark, _id in rules} == {" gap"}


def test_where_nothing_is_to_be_confirmed_that_is_said(officer):
    assert "Every rule of it was read in its text." in text_of(officer.get("/rulebooks/gb?only=unconfirmed").text)


def test_there_is_no_page_of_a_rulebook_that_is_not_there(officer):
    assert officer.get("/rulebooks/us-gide").status_code == 404
