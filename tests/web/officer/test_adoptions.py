"""What an area answers to, on pages: adopted over what it would change, confirmed rule by rule, made void again."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from repairlog.access import EVERYTHING
from repairlog.records.queries.due import WantedDue, due
from repairlog.records.story import story_of
from repairlog.records.tables import beside, facts
from repairlog.records.tables import due as tables
from repairlog.records.tables.picture import Change
from repairlog.records.tables.write import write
from repairlog.rulebooks import rulebooks_of
from repairlog.words.story import due_next, tell
from tests.makers import book as m
from tests.makers import digs as d
from tests.makers.copies import rows
from tests.makers.site import send, site
from tests.web.everyone.read import text_of

AT = datetime(2026, 9, 12, 16, tzinfo=UTC)
"""Nine days after the re-evaluation of leaks of 3 March 2026 was to be done."""


@pytest.fixture
def graded(book):
    leaks = [m.leak(book) for _ in range(2)]
    book.say(*leaks, *[m.grade(each["id"]) for each in leaks])
    return [each["id"] for each in leaks]


@pytest.fixture
def officer(book):
    return site(book).client(book.officer)


def of(book, more=""):
    return f"/rulebooks/areas/{book.area}{more}"


def adopt(book, officer, rulebook="saltmarsh-practice", **said):
    form = {"adopt-id": m.new_id(), "adopt-from_on": "2026-01-01", "adopt-happened": "2026-03-05"}
    form |= {f"adopt-{name}": value for name, value in said.items()}
    return send(officer, of(book, f"/adopt/{rulebook}"), form)


def confirm(book, officer, rule, **said):
    form = {"confirm-id": m.new_id(), "confirm-document": "manual, revision 7", "confirm-page": "4-12"}
    form |= {"confirm-happened": "2026-03-05"} | {f"confirm-{name}": value for name, value in said.items()}
    return send(officer, of(book, f"/confirm/{rule}"), form)


def test_before_it_is_adopted_it_is_shown_what_it_would_change_and_nothing_is_recorded(book, officer, graded):
    page = text_of(officer.get(of(book, "/adopt/saltmarsh-practice")).text)
    assert "2 leaks were looked at." in page
    assert "repair 0 2" in page
    assert "4 would be owed that are not owed now, 0 would be owed no more, 0 would have another day." in page
    assert "ES-26-0001 grade 2 repair not owed 3 Jun 2027, proposed" in page
    assert (rows(book.store, tables.DUE_ITEM), rows(book.store, facts.OF_KIND["rulebook_adopted"])) == ([], [])


def test_an_area_that_adopted_none_says_so_and_after_that_what_is_still_to_be_confirmed(book, officer, graded):
    assert "No rulebook was adopted here." in text_of(officer.get(of(book)).text)
    assert adopt(book, officer).status_code == 303
    page = text_of(officer.get(of(book)).text)
    assert "2 rules of it were not read in their text" in page
    assert len(rows(book.store, tables.DUE_ITEM)) == 4
    assert "Eastmarsh ES saltmarsh-practice from 1 Jan 2026 2" in text_of(officer.get("/rulebooks").text)


def test_one_rule_after_the_other_is_confirmed_with_the_document_and_the_day_carried_on(book, officer, graded):
    adopt(book, officer)
    first = confirm(book, officer, "repair-2")
    assert first.location == of(book, "/confirm/permanent?happened=2026-03-05&document=manual,+revision+7")
    following = officer.get(first.location).text
    assert 'value="manual, revision 7"' in following
    assert 'value="2026-03-05"' in following
    assert "autofocus" in following[following.index('name="confirm-page"') - 300 :][:600]
    last = confirm(book, officer, "permanent", page="4-13")
    assert last.location.startswith(of(book, "?saved="))
    page = text_of(officer.get(of(book)).text)
    assert "every rule of it was read in its text, or confirmed" in page
    assert "permanent manual, revision 7, 4-13 P. Lindqvist 5 Mar 2026" in page
    assert {row["firm"] for row in rows(book.store, tables.DUE_ITEM)} == {True}


def test_a_confirmation_is_made_void_and_its_days_are_proposed_again(book, officer, graded):
    adopt(book, officer)
    confirm(book, officer, "repair-2")
    entry = rows(book.store, facts.OF_KIND["rule_confirmed"])[0]["id"]
    form = {"void-id": m.new_id(), "void-reason": "another edition"}
    assert send(officer, of(book, f"/adopted/{entry}/void"), form).status_code == 303
    assert {row["firm"] for row in rows(book.store, tables.DUE_ITEM, rule="repair-2")} == {False}
    assert officer.get(of(book, f"/adopted/{graded[0]}/void")).status_code == 404  # no entry of that area


def test_a_proposal_is_adopted_only_where_somebody_says_that_it_is_one(book, officer):
    refused = adopt(book, officer, "saltmarsh-proposal")
    assert refused.status_code == 422
    assert "is a proposal, and not in force anywhere" in text_of(refused.text)
    assert adopt(book, officer, "saltmarsh-proposal", although_proposed="yes").status_code == 303
    assert "What is adopted here is a proposal, not law." in text_of(officer.get(of(book)).text)


def test_working_days_are_set_by_a_calendar_that_is_known(book, officer):
    form = {"days-id": m.new_id(), "days-calendar": "US-NX", "days-happened": "2026-03-05"}
    refused = send(officer, of(book, "/working-days"), form)
    assert refused.status_code == 422
    assert "There is no calendar “US-NX”." in text_of(refused.text)
    assert send(officer, of(book, "/working-days"), form | {"days-calendar": "US-NY"}).status_code == 303
    assert "working days: US-NY" in text_of(officer.get(of(book)).text)


def test_leaks_that_wait_to_be_worked_out_again_are_told(book, officer, graded):
    stale = {"subject_id": m.read_id(graded[0]), "stale_since": AT, "because_id": m.read_id(book.area)}
    with book.store.writing() as tx:
        write(tx, Change(puts={beside.STALE: [stale]}))
    assert "1 leak waits to be worked out again" in text_of(officer.get(of(book)).text)


def test_a_file_of_their_own_in_which_something_is_wrong_is_named_and_not_offered(book, tmp_path):
    (tmp_path / "ours.toml").write_text('id = "ours"\n')
    of_theirs = replace(book, store=replace(book.store, rulebooks=rulebooks_of(tmp_path)))
    page = text_of(site(of_theirs).client(book.officer).get("/rulebooks").text)
    assert "Something is wrong in ours.toml" in page


def test_a_sheet_says_what_is_due_next_and_each_thing_beside_its_entry(book, graded):
    dig = d.dig(book, [graded[0]])
    book.say(m.adopted(book.area), dig, d.owed(dig["id"], by_on="2026-09-30"))
    with book.store.reading() as tx:
        story = story_of(EVERYTHING, tx, leak=m.read_id(graded[0]))
        listed = due(EVERYTHING, tx, on=date(2026, 9, 12), at=AT, owing=WantedDue(), after=None, most=50)
    told = due_next(story, at=AT)
    assert [(line.task, line.how_soon, line.late) for line in told.lines] == [
        ("re-evaluate", "9 days late", True),
        ("restore the surface", "due in 18 days", False),
        ("repair", "proposed 3 Jun 2027, not confirmed", False),
    ]
    assert [row.task for row in listed if str(row.leak) == graded[0]] == ["re_evaluate", "restore", "repair"]
    a_year_on = due_next(story, at=AT.replace(year=2027))
    assert [(line.task, line.late) for line in a_year_on.lines if line.task == "repair"] == [("repair", False)]
    assert told.lines[2].by == "by 3 Jun 2027, counted from the report, target 3 Sep 2026, passed"
    assert told.lines[0].asked_by == "2.3, text checked"
    notes = {each.kind: [(note.head, note.wants) for note in each.margin] for each in tell(story, at=AT)}
    assert ("Repair: proposed 3 Jun 2027, not confirmed", False) in notes["leak_opened"]
    assert ("Re-evaluate: 9 days late", True) in [note for of_kind in notes.values() for note in of_kind]
    without = [note.head for each in tell(story) for note in each.margin]
    assert not [head for head in without if "Re-evaluate" in head]


def test_a_sheet_without_a_rulebook_says_so(book, officer, graded):
    page = text_of(officer.get(f"/leaks/{graded[0]}").text)
    assert "This area has adopted no rulebook" in page
