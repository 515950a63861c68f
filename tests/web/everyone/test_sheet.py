"""A leak's sheet: every entry in plain words, as it happened, with what stands beside it."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, timedelta

import pytest

from repairlog.entries.entry import Moments
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.records.tables.beside import PRIVATE_VALUE
from repairlog.words.boxes import label
from tests.makers import book as m
from tests.makers.full_book import filled
from tests.makers.site import site as made
from tests.web.everyone.read import entries_of, link, text_of


@pytest.fixture
def supervisor(site, book):
    return site.client(book.supervisor)


def entry_that(entries: list[str], *, says: str) -> str:
    """The only entry that says that."""
    (found,) = [entry for entry in entries if says in entry]
    return found


def test_the_head_says_what_is_known_of_the_leak_now(book, supervisor):
    numbers = [{"key": "n1", "what": "work order", "number": "W-4471"}]
    leak = m.leak(book, outside_numbers=numbers)
    book.say(leak, m.source(leak["id"], installed_year=1968), m.grade(leak["id"], grade="3"))
    book.say(m.grade(leak["id"], happened="2026-03-04"))
    page = supervisor.get(f"/leaks/{leak['id']}").text
    head = text_of(re.search(r'<header class="head">.*?</header>', page, flags=re.DOTALL)[0])
    assert head == (
        "2 14 Quarry Lane, Harrowsedge ES-26-0001 Open reported 3 Mar 2026, call about an odor found as grade 3 "
        "Source 1: service, threaded tee, steel, 3/4 in, 1968, normally 45 psi gauge (310 kPa) work order W-4471"
    )
    assert "<title>ES-26-0001, 14 Quarry Lane, Harrowsedge" in page


def test_a_leak_joined_to_another_leads_to_its_sheet_for_whoever_may_see_that(book, site):
    leak, other = m.leak(book), m.leak(book, area=book.other_area)
    book.say(leak, other, m.ending(leak["id"], how="joined", joined_to=other["id"]))
    here, everywhere = (site.client(who).get(f"/leaks/{leak['id']}").text for who in (book.supervisor, book.officer))
    assert link(everywhere, "goes on as: HF-26-0001") == f"/leaks/{other['id']}"
    assert "goes on as: outside your areas" in text_of(here)
    assert "HF-26-0001" not in here
    assert other["id"] not in here


def test_readings_stand_with_their_places_zeros_too_and_what_was_not_entered_says_why(book, supervisor):
    leak = m.leak(book)
    visit = m.visit(leak["id"], remarks="smell\nat the gate")
    visit["places"].append({"key": "p4", "kind": "building", "label": "no. 16", "not_entered": "no one in, card left"})
    visit["places"].append({"key": "p5", "kind": "manhole", "owner": "sewer"})
    visit["readings"].append({"key": "r9", "gas": "carbon_monoxide", "value": "35 ppm CO", "instrument": "G-4"})
    again = m.visit(
        leak["id"],
        happened="2026-03-04",
        purpose="re_evaluation",
        places=[{"key": "p1", "kind": "bar_hole", "same_as": f"{visit['id']}/p2"}, {"key": "p2", "kind": "bar_hole"}],
        readings=[{"key": "r1", "place": "p1", "value": "12 %LEL"}],
    )
    shut = m.visit(leak["id"], happened="2026-03-05", outcome="no_access", places=[], readings=[])
    book.say(leak, visit, again, {name: value for name, value in shut.items() if value})
    entries = entries_of(supervisor.get(f"/leaks/{leak['id']}").text)
    first, second, third = entries[1:]
    assert first.startswith("3 Mar 2026 08:26 First investigation R. Tolland What else was seen smell at the gate")
    for said in (
        "Bar hole 1, 6 ft from wall, 6 ft from the building (1.83 m) 0 %LEL sustained",
        "Bar hole 2, over the service 60 %LEL 3 % gas, sustained",
        "Vault, telephone, 30 ft from the building (9.14 m) 35 %LEL 1.75 % gas, peak",
        "Building, no. 16 not entered no one in, card left",
        "Manhole, sewer no reading",
        "Reading 35 ppm CO carbon monoxide, G-4",
    ):
        assert said in first
    assert second.startswith("4 Mar 2026 Re-evaluation")  # no hour known: the day alone
    assert "Bar hole 2 12 %LEL 0.6 % gas Bar hole 3 no reading" in second
    assert third.startswith("5 Mar 2026 First investigation no access")


def test_an_attempt_has_its_number_its_verdict_after_tests_and_its_lots_from_the_books(book, supervisor):
    leak = m.leak(book)
    source = m.source(leak["id"])
    materials = [{"key": "m1", "lot": book.lot, "used": "1 roll"}, {"key": "m2", "named": "W-81?"}]
    people = [
        {"key": "p1", "person": str(book.crew.person), "task": "install clamp"},
        {"key": "p2", "named": "a helper"},
    ]
    one = m.attempt(leak["id"], source=source["id"], materials=materials, people=people, pressure_installing="0 psi")
    test = m.test_of(leak["id"], one["id"], result="not_tight", duration="15 min")
    two = m.attempt(leak["id"], happened="2026-03-05 11:00", lasting="temporary")
    book.say(leak, source, one, test, two)
    book.say(m.review(leak["id"], two["id"], happened="2026-03-05 10:15", outcome="returned", reason="dirty"))
    entries = entries_of(supervisor.get(f"/leaks/{leak['id']}").text)
    first = entry_that(entries, says="Repair, attempt 1")
    assert "Repair, attempt 1: permanent not tight R. Tolland" in first
    assert "In the crew's word Tight" in first
    assert "Materials Lot W-0118, wrap tape, 2 in 1 roll, to 30 Sep 2026 W-81? not on the books" in first
    assert "Who did what M. Aldous install clamp a helper" in first
    assert "On Source 1" in first
    assert "Line pressure while installing 0 psi gauge" in first
    assert "Gap The lot “W-81?” is not on the books." in first
    assert "Soap test of attempt 1, 5 Mar 2026 not tight" in entry_that(entries, says="15 min")
    assert "Repair, attempt 2: temporary tight" in entry_that(entries, says="attempt 2: temporary")
    assert "Review of attempt 2, 5 Mar 2026 returned" in entry_that(entries, says="Why dirty")


def test_what_two_rows_of_an_entry_lack_alike_is_said_once(book, supervisor):
    leak, named = m.leak(book), {"key": "n1", "named": "a helper"}
    book.say(leak, m.attempt(leak["id"], people=[named | {"task": "watch pressure"}], did=[named]))
    told = entry_that(entries_of(supervisor.get(f"/leaks/{leak['id']}").text), says="Repair, attempt 1")
    assert told.count("The person “a helper” is not on the books.") == 1


def test_a_corrected_field_stands_beside_what_it_was_with_who_when_and_why(book, supervisor):
    leak = m.leak(book, reporter_name="J. Penrose")
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "W-0181"}])
    book.say(leak, attempt)
    changes = (("pressure_found", "47 psi"), ("materials.m1.named", "W-0811"), ("happened", "2026-03-05 09:30"))
    book.say(m.corrected(attempt["id"], *changes, ("method", None), reason="misread the label"), by=book.supervisor)
    book.say(m.corrected(leak["id"], ("reporter_name", "S. Hale")))
    page = supervisor.get(f"/leaks/{leak['id']}").text
    told = entry_that(entries_of(page), says="Repair, attempt 1")
    assert told.startswith("5 Mar 2026 09:30")
    assert "Line pressure found 45 psi gauge 47 psi gauge 324 kPa" in told
    assert '<del class="corrected">45 psi gauge</del> 47 psi gauge' in page
    assert "Materials W-0181 W-0811 not on the books" in told
    assert '<del class="corrected">bolt_on_clamp</del>' in page
    assert "Corrected 5 Mar 2026 by D. Okoro misread the label" in told
    assert '<del class="corrected">J. Penrose</del> S. Hale' in page


def test_a_void_entry_is_struck_folded_away_and_says_why_by_whom_and_when(book, supervisor):
    leak = m.leak(book)
    grade = m.grade(leak["id"], reason="near the house")
    book.say(leak, grade)
    book.say(m.void(grade["id"], reason="typed on the wrong leak"), by=book.supervisor)
    page = supervisor.get(f"/leaks/{leak['id']}").text
    told = entry_that(entries_of(page), says="Grade 2")
    assert "Void: what it said near the house" in told
    assert "Void since 5 Mar 2026, by D. Okoro typed on the wrong leak" in told
    assert f'<li class="entry void" id="e-{grade["id"]}">' in page


def test_a_leak_opened_in_error_says_so_and_keeps_what_stands_on_it(book, supervisor):
    leak = m.leak(book)
    book.say(leak, m.grade(leak["id"]))
    book.say(m.void(leak["id"], reason="no such leak"))
    page = supervisor.get(f"/leaks/{leak['id']}").text
    assert "ES-26-0001 Opened in error" in text_of(page)
    assert "opened in error" in entry_that(entries_of(page), says="no such leak")
    assert "It stands on a leak that was opened in error." in entry_that(entries_of(page), says="Grade 2")


def test_what_came_in_after_an_acceptance_or_an_ending_says_so_and_what_came_before_does_not(book, supervisor):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    early, between, late, after = (
        m.note(leak["id"], happened=when, text=f"at {when}")
        for when in ("2026-03-04 09:00", "2026-03-04 10:00", "2026-03-04 11:00", "2026-03-05 12:00")
    )
    at = Moments(received=m.RECEIVED + timedelta(hours=3))
    book.say(leak, attempt, early)
    book.say(m.review(leak["id"], attempt["id"]))
    book.say(between)
    book.say(m.ending(leak["id"], [attempt["id"]]))
    book.say(late, after, moments=at)
    entries = entries_of(supervisor.get(f"/leaks/{leak['id']}").text)
    accepted, ended = "Came in after a repair was accepted", "Came in after the leak was ended"
    notes = {name: entry_that(entries, says=f"at 2026-03-{name}") for name in ("04 09", "04 10", "04 11", "05 12")}
    assert {name: (accepted in told, ended in told) for name, told in notes.items()} == {
        "04 09": (False, False),
        "04 10": (True, False),
        "04 11": (False, True),
        "05 12": (False, False),
    }
    assert "Received 5 Mar 2026, 13:20." in notes["04 11"]


@pytest.mark.parametrize(
    ("happened", "said"),
    [
        ("2026-03-04 10:20", ""),  # a day and twelve seconds before it was written, told to the minute
        ("2026-03-03 10:19", "Typed 2 days after"),
        ("2026-03-04 10:19", "Typed 1 day after"),
        ("2026-03-05", ""),
        ("2026-03-04", ""),
        ("2026-03-03", "Typed 2 days after"),
    ],
)
def test_what_was_written_more_than_a_day_after_says_so(happened, said, book, supervisor):
    leak = m.leak(book, happened="2026-03-05")
    written = {"written": "2026-03-05T15:20:00.000Z"}
    book.say(leak, m.note(leak["id"], happened=happened, text="the note") | written)
    told = entry_that(entries_of(supervisor.get(f"/leaks/{leak['id']}").text), says="the note")
    assert (re.search(r"Typed \d days? after", told) or [""])[0] == said


def test_an_entry_sent_late_but_written_in_time_accuses_nobody(book, supervisor):
    leak = m.leak(book)
    book.say(leak | {"written": "2026-03-03T13:00:00.000Z"}, moments=Moments(received=m.RECEIVED + timedelta(days=3)))
    assert "Typed" not in text_of(supervisor.get(f"/leaks/{leak['id']}").text).replace("Typed by", "")


def test_a_name_that_was_removed_says_when_and_nothing_more(book, supervisor):
    leak = m.leak(book, reporter_name="J. Penrose")
    book.say(leak)
    assert "J. Penrose" in supervisor.get(f"/leaks/{leak['id']}").text
    with book.store.writing() as tx:
        gone = {"value": None, "salt": None, "removed_on": date(2026, 4, 1)}
        tx.connection.execute(PRIVATE_VALUE.update().values(gone))
    page = supervisor.get(f"/leaks/{leak['id']}").text
    assert "removed on 1 Apr 2026" in page
    assert "Penrose" not in page


def test_a_leak_outside_the_scope_is_not_found_like_one_that_is_not_there(book, supervisor):
    leak = m.leak(book, area=book.other_area)
    book.say(leak)
    ids = [leak["id"], m.new_id()]
    foreign, unknown = (supervisor.get(f"/leaks/{id}") for id in ids)
    assert (foreign.status_code, unknown.status_code) == (404, 404)
    assert text_of(foreign.text).replace(ids[0], ids[1]) == text_of(unknown.text)
    assert supervisor.get(f"/leaks/{book.lot}").status_code == 404


def test_after_saving_the_sheet_says_what_was_saved_and_what_was_raised(book, supervisor):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], materials=[{"key": "m1", "named": "W-81?"}])
    receipts = book.say(leak, attempt)
    fixed = m.corrected(attempt["id"], ("method", "clamp"))
    book.say(fixed)
    saved = {}
    for id in (attempt["id"], fixed["id"], m.new_id(), "no id"):
        page = supervisor.get(f"/leaks/{leak['id']}?saved={id}").text
        found = re.search(r'<div class="saved" role="status">(.*?)<header', page, flags=re.DOTALL)
        saved[id] = text_of(found[1]) if found else ""
    assert saved[attempt["id"]].startswith("Saved: Repair, attempt 1: permanent, 5 Mar 2026, 10:02 Typed by R. Tolland")
    assert f"Line {receipts[1].index} of the journal." in saved[attempt["id"]]
    assert "Gap The lot “W-81?” is not on the books." in saved[attempt["id"]]
    assert saved[fixed["id"]].startswith(
        "Put right: Repair, attempt 1: permanent, 5 Mar 2026, 10:02 Next: set the grade"
    )
    assert [*saved.values()][2:] == ["", ""]
    void = m.void(attempt["id"])
    book.say(void)
    page = text_of(supervisor.get(f"/leaks/{leak['id']}?saved={void['id']}").text)
    assert "Made void: Repair: permanent, 5 Mar 2026, 10:02" in page


def test_of_a_leak_without_a_grade_the_sheet_says_that_it_is_to_be_graded(book, site):
    leak = m.leak(book)
    book.say(leak)
    for role, may in {"crew": True, "everyone": False}.items():
        page = site.client(getattr(book, role)).get(f"/leaks/{leak['id']}?saved={leak['id']}").text
        assert "Next: set the grade" in text_of(page)
        assert bool(link(page, "set the grade")) is may
    book.say(m.grade(leak["id"]))
    assert "set the grade" not in text_of(site.client(book.crew).get(f"/leaks/{leak['id']}?saved={leak['id']}").text)


def test_each_person_is_offered_what_they_may_add(book, site):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"])
    book.say(leak, attempt)
    offered = {}
    for role in ("crew", "supervisor", "everyone"):
        page = site.client(getattr(book, role)).get(f"/leaks/{leak['id']}").text
        names = ("Log a visit", "Log a repair", "Add a note", "End the leak", "Log a test of it", "Accept or return it")
        offered[role] = {name: link(page, name) for name in names if link(page, name)}
    of = f"/leaks/{leak['id']}"
    crew = {"Log a visit": f"{of}/visit", "Log a repair": f"{of}/repair", "Add a note": f"{of}/note"}
    crew["Log a test of it"] = f"{of}/attempts/{attempt['id']}/test"
    more = {"End the leak": f"{of}/end", "Accept or return it": f"{of}/attempts/{attempt['id']}/review"}
    assert offered == {"crew": crew, "supervisor": crew | more, "everyone": {"Add a note": f"{of}/note"}}
    book.say(m.ending(leak["id"], [attempt["id"]]))
    assert link(site.client(book.supervisor).get(of).text, "End the leak") == ""


def test_every_kind_and_every_field_of_a_full_book_can_be_read(sqlite_store):
    """Whatever an entry says, its sheet shows; a code as a word, a reference by name."""
    full = filled(sqlite_store)
    client = made(full.book).client(full.book.officer)
    pages = [
        client.get(f"/leaks/{full.ids[name]}").text for name in ("ended", "troubled", "joined", "reopened", "from_call")
    ]
    shown = " ".join(entry for page in pages for entry in entries_of(page))
    labels = {
        label(field.says)
        for kind in KINDS.values()
        if kind.folds_in == "leak" and kind.name not in RIGHTING
        for field in kind.fields
        if field.kind in ("measure", "text") and field.name not in ("grade", "component")
    }
    assert {each for each in labels if each not in shown} == set()
    assert "None" not in shown
    assert not re.search(r"[0-9a-f]{8}-[0-9a-f]{4}-", shown)
    assert not re.search(r"\b(?:not_tight|bar_hole|odor_call|corrosion_failure|first_investigation)\b", shown)


def test_a_long_story_and_long_texts_are_drawn_whole(book, supervisor):
    leak = m.leak(book)
    long = "weiß " * 799 + "end."
    book.say(leak, *(m.note(leak["id"], text=long if place == 7 else f"note {place}") for place in range(200)))
    began = datetime.now(UTC)
    page = supervisor.get(f"/leaks/{leak['id']}").text
    assert datetime.now(UTC) - began < timedelta(seconds=5)
    assert len(entries_of(page)) == 201
    assert long in page


def test_what_is_written_in_an_entry_is_never_markup(book, supervisor):
    leak = m.leak(book, location="<script>x</script>", reporter_name="<i>")
    book.say(leak, m.note(leak["id"], text="<b>bold</b>"))
    page = supervisor.get(f"/leaks/{leak['id']}").text
    assert not any(bad in page for bad in ("<script>x", "<i>", "<b>bold"))
