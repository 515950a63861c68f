"""A leak's later life on pages: given, waiting, scheduled, a lower grade reviewed, opened again, a gap set aside."""

from __future__ import annotations

import re

from repairlog.records.rebuild import check
from repairlog.records.tables.worked import GAP, LEAK, WORK
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import fill_in
from tests.makers.site import site

ON = {"entry__happened": "2026-03-04"}


def test_work_is_given_and_settled_where_the_sheet_offers_it(book: m.Book, leak: str) -> None:
    supervisor, crew = (site(book).client(who) for who in (book.supervisor, book.crew))
    typed = {"entry__work": "repair", "entry__person": str(book.crew.person), "entry__by_on": "2026-03-20"}
    assert fill_in(supervisor, f"/leaks/{leak}/give", **typed, **ON).status_code == 303
    [given] = rows(book.store, WORK)
    assert (given["person_id"], given["by_on"].isoformat()) == (book.crew.person, "2026-03-20")
    at = f"/leaks/{leak}/given/{given['id']}"
    sheet = crew.get(f"/leaks/{leak}").text
    assert (at in sheet, f'/leaks/{leak}/give"' in sheet) == (True, False)
    assert "Repair, given to M. Aldous on 4 Mar 2026, to be done by 20 Mar 2026" in crew.get(at).text
    assert fill_in(crew, at, entry__outcome="done", **ON).status_code == 303
    assert rows(book.store, WORK) == []
    assert crew.get(at).status_code == 404


def test_the_work_waits_and_goes_on(book: m.Book, leak: str) -> None:
    crew = site(book).client(book.crew)
    assert fill_in(crew, f"/leaks/{leak}/waiting", entry__waits_on="permit", **ON).status_code == 303
    assert [row["waits_on"] for row in rows(book.store, LEAK)] == ["permit"]
    sheet = crew.get(f"/leaks/{leak}").text
    assert (f"/leaks/{leak}/goes-on" in sheet, f"/leaks/{leak}/waiting" in sheet) == (True, False)
    assert fill_in(crew, f"/leaks/{leak}/goes-on", entry__happened="2026-03-05").status_code == 303
    assert [row["waits_on"] for row in rows(book.store, LEAK)] == [None]


def test_a_lower_grade_is_reviewed_over_what_it_says(book: m.Book, leak: str) -> None:
    lower = m.grade(leak, grade="3", happened="2026-03-04", reason="vented for an hour")
    book.say(m.grade(leak, grade="1"), lower)
    supervisor = site(book).client(book.supervisor)
    at = f"/leaks/{leak}/grades/{lower['id']}/review"
    assert at in supervisor.get(f"/leaks/{leak}").text
    assert "From grade 1 to grade 3, 4 Mar 2026. vented for an hour" in supervisor.get(at).text
    assert fill_in(supervisor, at, entry__outcome="not_approved", **ON).status_code == 303
    assert [row["grade_now"] for row in rows(book.store, LEAK)] == ["1"]
    assert at not in supervisor.get(f"/leaks/{leak}").text


def test_an_ended_leak_is_opened_again_and_ended_again(book: m.Book, leak: str) -> None:
    book.say(m.ending(leak, how="no_reading", happened="2026-03-04"))
    supervisor = site(book).client(book.supervisor)
    assert f"/leaks/{leak}/reopen" in supervisor.get(f"/leaks/{leak}").text
    assert fill_in(supervisor, f"/leaks/{leak}/reopen", entry__reason="an odor", **ON).status_code == 303
    assert [row["status"] for row in rows(book.store, LEAK)] == ["open"]
    book.say(m.ending(leak, how="no_reading", happened="2026-03-05"))
    assert [(row["status"], str(row["ended_on"])) for row in rows(book.store, LEAK)] == [("ended", "2026-03-05")]
    assert check(book.store).differences == ()


def test_an_officer_sets_a_gap_aside_from_the_sheet_and_the_list_knows(book: m.Book, leak: str) -> None:
    odd = m.grade(leak, grade="C+")
    book.say(odd)
    officer, crew = (site(book).client(who) for who in (book.officer, book.crew))
    at = f"/leaks/{leak}/entries/{odd['id']}/gaps/grade_not_known"
    assert [at in each.get("/gaps").text for each in (officer, crew)] == [True, False]
    assert at in officer.get(f"/leaks/{leak}").text
    assert fill_in(officer, at, entry__reason="the town's own class", **ON).status_code == 303
    assert [row["set_aside_by_id"] is None for row in rows(book.store, GAP)] == [False]
    sheet = officer.get(f"/leaks/{leak}").text
    assert ("Gap, set aside" in sheet, at in sheet) == (True, False)
    assert "No gap stands" in officer.get("/gaps").text
    assert "the town&#39;s own class" in officer.get("/gaps?aside=yes").text
    assert re.search(r'gaps" data-head|data-head="gaps"', officer.get("/leaks").text) is None


def test_the_list_of_gaps_says_what_it_could_not_read_and_can_be_taken_away(book: m.Book, leak: str) -> None:
    book.say(m.grade(leak, grade="C+"))
    officer = site(book).client(book.officer)
    wrong = officer.get("/gaps?from=soon&area=XX").text
    assert ("“soon” is no day" in wrong, "There is no area “XX”" in wrong, "grade “C+”" in wrong) == (True, True, True)
    taken = officer.get("/gaps?code=grade_not_known&as=csv")
    assert (taken.status_code, taken.mimetype) == (200, "text/csv")
    assert "Grade not known,No rank of the grade “C+” is known." in taken.get_data(as_text=True)
