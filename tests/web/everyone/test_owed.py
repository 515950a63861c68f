"""What a rulebook would ask of a leak: days, clauses, and the grade that the last readings call for."""

from __future__ import annotations

import pytest

from tests.makers import book as m
from tests.web.everyone.read import text_of


@pytest.fixture
def supervisor(site, book):
    return site.client(book.supervisor)


def shown(client, leak: str, rulebook: str = "us-guide") -> str:
    """The page's text."""
    return text_of(client.get(f"/leaks/{leak}/owed?rulebook={rulebook}").text)


def test_each_task_stands_with_its_day_what_it_is_counted_from_and_its_clause(book, supervisor):
    leak = m.leak(book)
    book.say(leak, m.grade(leak["id"], grade="2"))
    page = shown(supervisor, leak["id"])
    # 15 months from 3 March 2026, and 6 months from the day it was found: national guide practice, from memory.
    assert "3 Jun 2027 proposed, not confirmed repair owed the report 3 Mar 2026, 15 months G-192-11, grade 2" in page
    assert "3 Sep 2026 proposed, not confirmed re-evaluate owed the last look 3 Mar 2026, 6 months" in page
    assert "no day here is late" in page


def test_what_a_repair_settled_says_so_and_a_void_brings_it_back(book, supervisor):
    leak = m.leak(book)
    source = m.source(leak["id"])
    attempt = m.attempt(leak["id"], source=source["id"])
    book.say(leak, source, m.grade(leak["id"], grade="2"), attempt)
    assert "repair repaired, 5 Mar 2026" in shown(supervisor, leak["id"])
    book.say(m.void(attempt["id"]))
    assert "repair owed" in shown(supervisor, leak["id"])


def test_the_last_readings_call_for_a_grade_and_say_by_which_criterion(book, supervisor):
    leak = m.leak(book)
    visit = m.visit(leak["id"])
    visit["places"].append({"key": "p4", "kind": "manhole", "owner": "sewer"})
    visit["readings"].append({"key": "r9", "place": "p4", "value": "80 %LEL"})
    book.say(leak, visit)
    assert "Calls for grade 1 at least: A reading of 80 %LEL or more in a confined space" in shown(
        supervisor, leak["id"]
    )


def test_a_rulebook_is_asked_for_first_and_one_that_is_not_known_is_named(book, supervisor):
    leak = m.leak(book)
    book.say(leak)
    assert "Choose a rulebook." in shown(supervisor, leak["id"], "")
    assert "No rulebook “us-gide” is known." in shown(supervisor, leak["id"], "us-gide")


def test_a_leak_opened_in_error_owes_nothing_and_a_proposal_says_that_it_is_none(book, supervisor):
    leak = m.leak(book)
    book.say(leak, m.grade(leak["id"], grade="2"))
    book.say(m.void(leak["id"]))
    page = shown(supervisor, leak["id"], "us-federal-2023")
    assert "asks for anything here" in page
    assert "proposed, not law" in page


def test_a_leak_of_another_area_is_not_there(book, site):
    leak = m.leak(book, area=book.other_area)
    book.say(leak)
    assert site.client(book.supervisor).get(f"/leaks/{leak['id']}/owed").status_code == 404
