"""The first hour at a leak: one touch notes it, a second touch notes nothing, and an undone touch still says so."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from repairlog.records.rebuild import check
from repairlog.records.tables.facts import OF_KIND
from repairlog.records.tables.worked import WATCH
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers.copies import rows
from tests.makers.form_page import fill_in, form_page
from tests.makers.site import TOKEN, site
from tests.web.everyone.read import link, text_of


@pytest.fixture
def crew(book: m.Book) -> FlaskClient:
    return site(book).client(book.crew)


def touched(who: FlaskClient, leak: str, name: str, value: str, **more: str) -> dict[str, str]:
    """What that button sends, with the id that was made when it was drawn."""
    page = who.get(f"/leaks/{leak}/first-hour").text
    of_button = rf'name="id" value="([^"]+)">(?:(?!</form>)[\s\S])*<button [^>]*name="{name}" value="{value}"'
    (token, id) = (re.search(each, page) for each in (TOKEN, of_button))
    assert token
    assert id, f"no button {value}"
    return {"csrf_token": token[1], "id": id[1], name: value, **more}


def noted(page: str) -> list[str]:
    """What stands under "Noted so far", without its times."""
    part = page.partition('<ol class="so-far"')[2].partition("</ol>")[0]
    return [re.sub(r"^[0-9]{2}:[0-9]{2} ", "", text_of(each)) for each in re.findall(r"<li.*?</li>", part, re.DOTALL)]


def test_a_moment_is_noted_by_one_touch_and_a_second_touch_is_no_second_entry(crew, book, leak):
    sent = touched(crew, leak, "moment", "gas_under_control", controlled_by="curb_valve")
    assert [crew.post(f"/leaks/{leak}/first-hour/tap", data=sent).status_code for _ in range(2)] == [303, 303]
    found = rows(book.store, OF_KIND["moment_noted"])
    assert [(row["moment"], row["controlled_by"]) for row in found] == [("gas_under_control", "curb_valve")]
    page = crew.get(f"/leaks/{leak}/first-hour").text
    assert noted(page) == ["Gas under control M. Aldous Undo"]
    assert re.search(r"Gas under control</button>\s*<p><span><b>[0-9:]{5}</b>", page), (
        "its time stands beside the button"
    )


def test_somebody_is_told_by_one_touch_and_only_a_button_of_ours_notes_anything(crew, book, leak):
    sent = touched(crew, leak, "whom", "fire_department")
    assert crew.post(f"/leaks/{leak}/first-hour/tap", data=sent).status_code == 303
    assert [row["whom"] for row in rows(book.store, OF_KIND["told"])] == ["fire_department"]
    assert crew.post(f"/leaks/{leak}/first-hour/tap", data=sent | {"whom": "the press"}).status_code == 404


def test_a_touch_that_cannot_be_read_is_kept_as_unfinished(crew, book, leak):
    sent = touched(crew, leak, "moment", "people_out", people_count="seven", place="164, to the boat house")
    answer = crew.post(f"/leaks/{leak}/first-hour/tap", data=sent)
    assert (answer.status_code, "kept as unfinished" in answer.text) == (422, True)
    again = crew.get(link(crew.get("/unfinished").text, "Open"), follow_redirects=True)
    assert form_page(again).boxes["entry-people_count"] == ["seven"]
    assert rows(book.store, OF_KIND["moment_noted"]) == []


def test_an_undone_touch_is_void_with_a_reason_and_still_stands_there(crew, book, leak):
    sent = touched(crew, leak, "moment", "first_gas")
    crew.post(f"/leaks/{leak}/first-hour/tap", data=sent)
    undo = touched(crew, leak, "entry", sent["id"])
    assert [crew.post(f"/leaks/{leak}/first-hour/undo", data=undo).status_code for _ in range(2)] == [303, 303]
    page = crew.get(f"/leaks/{leak}/first-hour").text
    assert noted(page) == ["First gas M. Aldous \u00b7 Entered in error, and undone"]
    assert ('value="first_gas"' in page, "Undo" in page) == (True, False)
    assert check(book.store).differences == ()


def test_only_ones_own_touches_of_this_leak_can_be_undone(book, leak):
    others, elsewhere = c.moment(leak), m.leak(book)
    book.say(others, elsewhere, by=book.supervisor)
    crew = site(book).client(book.crew)
    token = TOKEN.search(crew.get(f"/leaks/{leak}/first-hour").text)
    assert "Undo" not in crew.get(f"/leaks/{leak}/first-hour").text
    sent = {"csrf_token": token[1], "id": m.new_id(), "entry": elsewhere["id"]}
    assert crew.post(f"/leaks/{leak}/first-hour/undo", data=sent).status_code == 404
    refused = crew.post(f"/leaks/{leak}/first-hour/undo", data=sent | {"entry": others["id"]})
    assert (refused.status_code, "kept as unfinished" in refused.text) == (403, True)


def test_a_moment_can_be_typed_later_with_its_own_time(crew, book, leak):
    typed = {"entry__happened": ["2026-03-03", "08:05"], "entry__moment": "street_closed"}
    answer = fill_in(crew, f"/leaks/{leak}/first-hour/moment", **typed)
    assert (answer.status_code, answer.location.startswith(f"/leaks/{leak}/first-hour?saved=")) == (303, True)
    assert noted(crew.get(answer.location).text) == ["3 Mar 2026 Street closed M. Aldous Undo"]
    assert "<b>08:05</b>" in crew.get(answer.location).text


def test_the_watch_passes_from_whoever_has_it_to_a_named_person(crew, book, leak):
    me, other = str(book.crew.person), str(book.supervisor.person)
    book.say(c.watch(leak, to_person=me, happened="2026-03-03 09:00"))
    at = f"/leaks/{leak}/first-hour/watch"
    assert form_page(crew.get(at)).boxes["entry-from_person"] == [me]
    typed = {"entry__happened": ["2026-03-03", "14:00"], "entry__to_person": other, "entry__customers_off": "2"}
    assert fill_in(crew, at, **typed, entry__next_reading_by=["2026-03-03", "14:30"]).status_code == 303
    assert [row["person_id"] for row in rows(book.store, WATCH)] == [book.supervisor.person]
    page = text_of(crew.get(f"/leaks/{leak}/first-hour").text)
    assert "The watch goes to D. Okoro , 14:00. Next reading by 3 Mar 2026, 14:30" in page


def test_whether_it_is_to_be_reported_is_for_those_who_may_decide(book, leak):
    crew, supervisor = (site(book).client(who) for who in (book.crew, book.supervisor))
    at = f"/leaks/{leak}/first-hour"
    assert [f'href="{at}/decided"' in each.get(at).text for each in (crew, supervisor)] == [False, True]
    typed = {"entry__happened": "2026-03-03", "entry__decision": "not_reportable", "entry__reason": "nobody hurt"}
    assert fill_in(supervisor, f"{at}/decided", **typed).status_code == 303
    assert noted(supervisor.get(at).text) == ["3 Mar 2026 Decided: not to be reported D. Okoro Undo"]


def test_the_sheet_and_the_call_lead_to_the_first_hour(crew, book, leak):
    call = c.call(book)
    book.say(call, c.outcome(call["id"], outcome="operators_leak", found_leak=leak))
    for address in (f"/leaks/{leak}", f"/calls/{call['id']}"):
        assert f'href="/leaks/{leak}/first-hour"' in crew.get(address).text
