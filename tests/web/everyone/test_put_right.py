"""Entries are put right on pages: any field of any kind, by role and age, and nobody's words are undone unseen."""

from __future__ import annotations

import re
from collections import Counter
from datetime import UTC, datetime, timedelta

import pytest
from flask.testing import FlaskClient

from repairlog.entries.entry import Moments
from repairlog.records.rebuild import check
from repairlog.records.tables.facts import ENTRY, OF_KIND, OF_ROWS
from tests.makers import book as m
from tests.makers.copies import rows
from tests.makers.form_page import fill_in, form_page, press_on
from tests.makers.full_book import filled
from tests.makers.site import site

NOW = datetime.now(UTC)
WHY = {"right__reason": "misread"}


@pytest.fixture
def officer(book: m.Book) -> FlaskClient:
    return site(book).client(book.officer)


def address(leak: str, entry: str, what: str = "right") -> str:
    return f"/leaks/{leak}/entries/{entry}/{what}"


def stands(book: m.Book, kind: str, id: str) -> dict[str, object]:
    """The facts of one entry."""
    return next(row for row in rows(book.store, OF_KIND[kind]) if row["id"] == m.read_id(id))


def test_what_is_changed_becomes_one_correction_and_the_old_stands_beside_the_new(
    book: m.Book, leak: str, officer: FlaskClient
) -> None:
    attempt = m.attempt(leak)
    book.say(attempt)
    at = address(leak, attempt["id"])
    saved = fill_in(officer, at, entry__pressure_found="60 psi", entry__remarks="two\r\nlines", **WHY)
    assert saved.status_code == 303
    [correction] = rows(book.store, OF_KIND["corrected"])
    changes = {(row["field"], row["to"]) for row in rows(book.store, OF_ROWS["corrected", "changes"])}
    assert (correction["reason"], changes) == ("misread", {("pressure_found", "60 psi"), ("remarks", "two\nlines")})
    sheet = officer.get(saved.location).text
    assert re.search(r'<del class="corrected">45 psi[^<]*</del>\s*60 psi', sheet)
    assert check(book.store).differences == ()


def test_what_nobody_changed_is_no_correction_whatever_the_kind(sqlite_store) -> None:
    """Every entry of a full book goes into its form and comes back out of it as it stood."""
    full = filled(sqlite_store)
    client = site(full.book).client(full.book.officer)
    kinds = {str(row["id"]): row["kind"] for row in rows(full.book.store, ENTRY)}
    tried: Counter[str] = Counter()
    for name in ("ended", "troubled", "joined", "reopened"):
        leak = full.ids[name]
        for found in re.findall(rf"/leaks/{leak}/entries/([0-9a-f-]+)/right", client.get(f"/leaks/{leak}").text):
            tried[kinds[found]] += 1
            if tried[kinds[found]] <= 2:
                answer = fill_in(client, address(leak, found), **WHY)
                told = "Nothing in it is different" in answer.text
                assert (kinds[found], answer.status_code, told) == (kinds[found], 422, True)
    assert len(tried) > 15


def test_rows_are_added_changed_and_taken_away(book: m.Book, leak: str, officer: FlaskClient) -> None:
    visit = m.visit(leak)
    book.say(visit)
    at = address(leak, visit["id"])
    page = form_page(fill_in(officer, at, press="add=entry-readings"))
    typed = {
        "entry__readings__0__value": "3 %LEL",
        "entry__readings__2__value": "",
        "entry__readings__2__place": "",
        "entry__readings__2__kind": "",
        "entry__readings__3__place": "p1",
        "entry__readings__3__value": "0 %gas",
    }
    assert press_on(officer, at, page, **typed, **WHY).status_code == 303
    read = {(row["key"], row["place"], row["value"]) for row in rows(book.store, OF_ROWS["visit", "readings"])}
    assert read == {("r1", "p1", "3 %LEL"), ("r2", "p2", "60 %LEL"), ("r4", "p1", "0 %gas")}


def test_a_private_value_is_put_right_and_stays_out_of_the_journal(book: m.Book, officer: FlaskClient) -> None:
    leak = m.leak(book, reporter_name="J. Penrose")
    book.say(leak)
    at = address(leak["id"], leak["id"])
    assert form_page(officer.get(at)).boxes["entry-reporter_name"] == ["J. Penrose"]
    assert fill_in(officer, at, entry__reporter_name="J. Penrice", **WHY).status_code == 303
    assert "J. Penrice" in officer.get(f"/leaks/{leak['id']}").text


def test_an_entry_moves_to_the_leak_whose_number_is_typed(book: m.Book, leak: str, officer: FlaskClient) -> None:
    other, visit = m.leak(book), m.visit(leak)
    [receipt] = book.say(other)
    book.say(visit)
    at = address(leak, visit["id"])
    assert fill_in(officer, at, entry__leak="ES-99-9999", **WHY).status_code == 422
    assert fill_in(officer, at, entry__leak=receipt.number.lower(), **WHY).status_code == 303
    assert stands(book, "visit", visit["id"])["leak_id"] == m.read_id(other["id"])
    assert check(book.store).differences == ()


def test_what_cannot_be_read_is_told_beside_its_box_and_kept(book: m.Book, leak: str, officer: FlaskClient) -> None:
    attempt = m.attempt(leak)
    book.say(attempt)
    at = address(leak, attempt["id"])
    wrong = fill_in(officer, at, entry__pressure_found="45 bananas", **WHY)
    assert wrong.status_code == 422
    assert "bananas" in form_page(wrong).said("entry-pressure_found")
    no_reason = fill_in(officer, at, entry__pressure_found="60 psi")
    assert no_reason.status_code == 422
    assert form_page(no_reason).said("right-reason")
    left = form_page(officer.get(f"{at}?unfinished={form_page(no_reason).boxes['right-id'][0]}"))
    assert left.boxes["entry-pressure_found"] == ["60 psi"]


def test_the_later_of_two_is_shown_what_stands_meanwhile_and_undoes_none_of_it(
    book: m.Book, leak: str, officer: FlaskClient
) -> None:
    attempt = m.attempt(leak)
    book.say(attempt)
    at = address(leak, attempt["id"])
    open_page = form_page(officer.get(at))
    book.say(m.corrected(attempt["id"], ("method", "welded_sleeve")), by=book.supervisor)
    late = press_on(officer, at, open_page, entry__pressure_found="60 psi", **WHY)
    assert late.status_code == 422
    assert "put the same entry right while this page was open" in late.text
    assert re.search(r'<del class="corrected">bolt_on_clamp</del>\s*welded_sleeve', late.text)
    page = form_page(late)
    assert (page.boxes["entry-method"], page.boxes["entry-pressure_found"]) == (["welded_sleeve"], ["60 psi"])
    assert press_on(officer, at, page, **WHY).status_code == 303
    row = stands(book, "repair_attempted", attempt["id"])
    assert (row["method"], row["pressure_found"]) == ("welded_sleeve", "60 psi")


def test_a_correction_is_corrected_and_taken_back_and_a_void_is_restored(
    book: m.Book, leak: str, officer: FlaskClient
) -> None:
    attempt = m.attempt(leak)
    right = m.corrected(attempt["id"], ("method", "sleeve"))
    book.say(attempt, right)
    changed = fill_in(officer, address(leak, right["id"]), entry__changes__0__to="welded_sleeve", **WHY)
    assert changed.status_code == 303
    assert stands(book, "repair_attempted", attempt["id"])["method"] == "welded_sleeve"
    assert fill_in(officer, address(leak, right["id"], "void"), void__reason="it was right").status_code == 303
    assert stands(book, "repair_attempted", attempt["id"])["method"] == "bolt_on_clamp"
    assert fill_in(officer, address(leak, attempt["id"], "void"), void__reason="another leak").status_code == 303
    void = next(row for row in rows(book.store, OF_KIND["void"]) if row["entry_id"] == m.read_id(attempt["id"]))
    sheet = officer.get(f"/leaks/{leak}").text
    assert address(leak, str(void["id"]), "void") in sheet
    assert fill_in(officer, address(leak, str(void["id"]), "void"), void__reason="this leak").status_code == 303
    assert address(leak, attempt["id"]) in officer.get(f"/leaks/{leak}").text
    assert check(book.store).differences == ()


@pytest.mark.parametrize(("days", "status"), [(0, 200), (1, 200), (2, 403)])
def test_a_crew_puts_its_own_right_until_the_day_after_it_came_in(
    book: m.Book, leak: str, days: int, status: int
) -> None:
    own, others = m.visit(leak), m.visit(leak)
    book.say(own, by=book.crew, moments=Moments(received=NOW - timedelta(days=days)))
    book.say(others, by=book.supervisor, moments=Moments(received=NOW))
    crew = site(book).client(book.crew)
    sheet = crew.get(f"/leaks/{leak}").text
    assert (address(leak, own["id"]) in sheet, address(leak, others["id"]) in sheet) == (status == 200, False)
    for what in ("right", "void"):
        assert crew.get(address(leak, own["id"], what)).status_code == status
        assert crew.get(address(leak, others["id"], what)).status_code == 403


def test_a_supervisor_puts_right_until_the_repair_is_accepted_and_an_officer_after(
    book: m.Book, leak: str, officer: FlaskClient
) -> None:
    attempt, visit = m.attempt(leak), m.visit(leak)
    test = m.test_of(leak, attempt["id"])
    book.say(attempt, visit, test)
    supervisor = site(book).client(book.supervisor)
    assert supervisor.get(address(leak, attempt["id"])).status_code == 200
    book.say(m.review(leak, attempt["id"]))
    asked = {each["kind"]: supervisor.get(address(leak, each["id"])).status_code for each in (attempt, visit, test)}
    assert asked == {"repair_attempted": 403, "visit": 200, "tested": 403}
    book.say(m.ending(leak, [attempt["id"]]))
    assert supervisor.get(address(leak, visit["id"])).status_code == 403
    assert {officer.get(address(leak, each["id"])).status_code for each in (attempt, visit, test)} == {200}
    assert fill_in(officer, address(leak, visit["id"]), entry__remarks="seen", **WHY).status_code == 303


def test_an_entry_of_another_leak_is_not_put_right_here(book: m.Book, leak: str, officer: FlaskClient) -> None:
    other = m.leak(book)
    visit = m.visit(other["id"])
    book.say(other, visit)
    assert officer.get(address(leak, visit["id"])).status_code == 404
    assert officer.get(address(leak, m.new_id())).status_code == 404
