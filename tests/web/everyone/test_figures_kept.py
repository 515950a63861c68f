"""A worked figure is kept on a leak from its page: it stands on the sheet as worked out, and never as a measurement."""

from __future__ import annotations

import pytest

from repairlog.records.rebuild import check
from repairlog.records.tables.facts import OF_KIND, OF_ROWS
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import fill_in, form_page, press_on
from tests.web.everyone.read import entries_of, link, text_of

FLOW = "hole=1%2F16+in&pressure=45+psi"


@pytest.fixture
def book(sqlite_store):
    return m.opened(sqlite_store)


@pytest.fixture
def crew(book, site):
    return site.client(book.crew)


@pytest.fixture
def opened(book):
    leak = m.leak(book)
    attempt = m.attempt(leak["id"], hole_size="1/16 in")
    number = book.say(leak, attempt)[0].number
    return leak["id"], attempt["id"], number


def test_a_figure_is_kept_beside_the_entry_that_its_values_came_from(book, crew, opened):
    leak, attempt, number = opened
    asked = f"/figures/flow?leak={leak}&from_entry={attempt}&{FLOW}"
    keep = link(crew.get(asked).text, f"Keep this on {number}")
    saved = fill_in(crew, keep, keep__happened="2026-03-05", keep__remarks="until the clamp was on")
    assert saved.status_code == 303
    kept = entries_of(crew.get(saved.location).text)
    beside = next(each for each in kept if "Repair, attempt 1" in each)
    own = next(each for each in kept if "until the clamp was on" in each)
    assert "Worked figure, not a measurement Gas through a hole; Flow: 253 scf/h" in beside
    assert "Gas through a hole worked figure, not a measurement" in own
    assert "Hole across: 1/16 in 0.0625 in" in own
    assert "Gravity of the gas (air 1): 0.6 usual value" in own
    [entry] = rows(book.store, OF_KIND["figure_kept"])
    assert (entry["figure"], entry["figure_version"], entry["remarks"]) == ("flow", "1", "until the clamp was on")
    values = {row["name"]: row["value"] for row in rows(book.store, OF_ROWS["figure_kept", "results"])}
    assert values["standard_flow_scfh"] == "252.573989081"
    assert check(book.store).differences == ()


def test_a_figure_that_is_void_stands_beside_nothing(book, crew, opened):
    leak, attempt, _number = opened
    saved = fill_in(crew, f"/leaks/{leak}/figures/flow/keep?from_entry={attempt}&{FLOW}", keep__happened="2026-03-05")
    id = saved.location.rpartition("=")[2]
    gone = fill_in(crew, f"/leaks/{leak}/entries/{id}/void", void__reason="another hole")
    assert gone.status_code == 303
    kept = entries_of(crew.get(f"/leaks/{leak}").text)
    assert [each for each in kept if "Worked figure, not a measurement" in each] == []
    assert any("Void: what it said" in each for each in kept)


def test_of_a_kept_figure_day_and_remarks_are_put_right_and_nothing_that_was_worked_out(book, crew, opened):
    leak, _attempt, _number = opened
    saved = fill_in(crew, f"/leaks/{leak}/figures/flow/keep?{FLOW}", keep__happened="2026-03-05")
    page = crew.get(f"/leaks/{leak}/entries/{saved.location.rpartition('=')[2]}/right")
    assert {name for name in form_page(page).boxes if name.startswith("entry-") and "did" not in name} == {
        "entry-id",
        "entry-happened",
        "entry-remarks",
    }


def test_a_figure_s_page_finds_the_leak_by_its_number_or_says_that_it_sees_none(crew, opened):
    leak, _attempt, number = opened
    there = crew.get(f"/figures/flow?{FLOW}&on_leak={number.lower()}")
    assert (there.status_code, there.location.startswith(f"/leaks/{leak}/figures/flow/keep?hole=1/16+in")) == (
        303,
        True,
    )
    nowhere = text_of(crew.get(f"/figures/flow?{FLOW}&on_leak=ES-99-1").text)
    assert "You see no leak of that number." in nowhere


def test_what_cannot_be_worked_out_is_not_kept(book, crew, opened):
    leak, _attempt, _number = opened
    sent = crew.get(f"/leaks/{leak}/figures/flow/keep?hole=-3+in&pressure=45+psi")
    assert (sent.status_code, sent.location.startswith("/figures/flow?")) == (303, True)
    assert "below zero" in crew.get(sent.location).text
    assert crew.get(f"/leaks/{leak}/figures/none/keep").status_code == 404
    assert rows(book.store, OF_KIND["figure_kept"]) == []


def test_what_was_left_unfinished_is_worked_out_again_when_it_is_opened(book, crew, opened):
    leak, attempt, _number = opened
    at = f"/leaks/{leak}/figures/loss/keep?segment=30+scfh,+240+h&segment=2+scfh,+1+h&from_entry={attempt}"
    unread = fill_in(crew, at, keep__happened="2026-13-05")
    assert (unread.status_code, "Gas lost: 7,200 scf" in unread.text) == (422, True)
    left = crew.get(link(crew.get("/unfinished").text, "Open")).location
    page = crew.get(left)
    assert ("Gas lost: 7,200 scf" in page.text, 'value="2 scfh, 1 h"' in page.text) == (True, True)
    saved = press_on(crew, left, form_page(page), keep__happened="2026-03-05")
    assert saved.status_code == 303
    [entry] = rows(book.store, OF_KIND["figure_kept"])
    assert (entry["figure"], str(entry["from_entry_id"])) == ("loss", attempt)


def test_a_figure_from_an_entry_that_is_void_or_another_leak_s_is_raised(book, crew, opened):
    leak, attempt, _number = opened
    fill_in(crew, f"/leaks/{leak}/figures/flow/keep?from_entry={attempt}&{FLOW}", keep__happened="2026-03-05")
    assert "values went into this figure is void" not in crew.get(f"/leaks/{leak}").text
    book.say(m.void(attempt))
    assert "values went into this figure is void" in crew.get(f"/leaks/{leak}").text
