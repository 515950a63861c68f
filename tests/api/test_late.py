"""What comes in late is judged by who its sender was on the day on which it was written, by the device's time with its
offset taken off; a closed token is refused whenever it was written."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import time_machine

from repairlog.access import Actor
from repairlog.entries.ids import read_id
from repairlog.entries.moments import moment_text
from repairlog.records.beside.sign_ins import close_sign_in
from repairlog.records.beside.tokens import close_token, mark_of
from repairlog.records.beside.unfinished import of_person
from repairlog.records.store import Store
from repairlog.records.tables.journal import JOURNAL
from repairlog.records.tables.worked import GAP
from tests.makers import book as m
from tests.makers.copies import count, rows
from tests.makers.program import Program, program
from tests.makers.site import TOKEN, Site, site

THERE = ZoneInfo("America/New_York")
SENT = datetime(2026, 3, 6, 12, tzinfo=THERE)
LAST_DAY = "2026-03-04"


@pytest.fixture
def open_site(sqlite_store: Store) -> Site:
    """A book in which somebody's only role ended with 4 March."""
    return site(m.opened(sqlite_store))


@pytest.fixture
def leaver(open_site: Site) -> Actor:
    """Who was of a crew from 2 to 4 March, and signed in on the first of these days."""
    person = m.person("K. Ames")
    open_site.book.say(person, m.role_given(person["id"], area=open_site.book.area, until_on=LAST_DAY))
    return Actor(person=read_id(person["id"]), sure="password")


@pytest.fixture
def phone(open_site: Site, leaver: Actor) -> Program:
    """A device of theirs, with a token from their first day."""
    with time_machine.travel(datetime(2026, 3, 2, 9, tzinfo=THERE), tick=False):
        return program(open_site, leaver)


def at(day: int, clock: str) -> datetime:
    """That moment of March in the area."""
    return datetime.fromisoformat(f"2026-03-{day:02d} {clock}").replace(tzinfo=THERE)


def sent(phone: Program, entry: dict[str, Any], *, written: datetime, offset: timedelta = timedelta()) -> int:
    """The status of a call on 6 March: written when the device says so, whose clock is fast by `offset`."""
    told = entry | {"written": moment_text((written + offset).astimezone(UTC))}
    clock = {
        "sent": moment_text((SENT + offset).astimezone(UTC)),
        "offset_ms": round(offset / timedelta(milliseconds=1)),
    }
    with time_machine.travel(SENT, tick=False):
        return phone.post({"entries": [told], **clock}).status_code


@pytest.mark.parametrize(
    ("written", "status"),
    [
        (at(1, "23:59"), 403),
        (at(2, "00:00"), 201),
        (at(4, "23:59"), 201),
        (at(5, "00:00"), 403),
        (at(6, "11:00"), 403),
    ],
)
def test_a_late_entry_is_judged_on_the_day_on_which_it_was_written(open_site, phone, leaver, written, status):
    leak = m.leak(open_site.book, happened="2026-03-01")
    assert sent(phone, leak, written=written) == status
    left = [each.because for each in of_person(open_site.book.store, leaver.person)]
    assert left == ([] if status == 201 else ["refused"])
    raised = [gap["code"] for gap in rows(open_site.book.store, GAP)]
    assert raised == (["sent_after_leaving"] if status == 201 else [])


@pytest.mark.parametrize(("days", "status"), [(-2, 403), (0, 201), (2, 201)])
def test_a_device_with_a_wrong_clock_gains_and_loses_nothing(open_site, phone, days, status):
    """`days`: how far its clock is off. What it says of 4 March was written on the 4th whatever its clock said; a clock
    that is slow by two days says the 4th of what was written on the 6th."""
    leak = m.leak(open_site.book, happened="2026-03-01")
    truly = at(6, "11:00") if days < 0 else at(4, "11:00")
    assert sent(phone, leak, written=truly, offset=timedelta(days=days)) == status


def test_a_closed_token_is_refused_though_it_was_open_when_the_entry_was_written(open_site, phone):
    before = count(open_site.book.store, JOURNAL)
    close_token(open_site.book.store, mark_of(phone.token), at=at(3, "18:00"))
    assert sent(phone, m.leak(open_site.book, happened="2026-03-01"), written=at(3, "09:00")) == 401
    assert count(open_site.book.store, JOURNAL) == before


def test_a_form_drawn_before_its_sign_in_was_closed_saves_nothing(open_site, leaver):
    store = open_site.book.store
    with time_machine.travel(at(3, "09:00"), tick=False):
        browser = open_site.client(leaver)
        token = TOKEN.search(browser.get("/leaks/new").text)
        before = count(store, JOURNAL)
        close_sign_in(store, f"sign-in {leaver.person}", at=at(3, "10:00"))
        typed = {"csrf_token": token[1], "leak-street": "Mill Lane", "leak-happened": ["2026-03-03", ""], "save": "1"}
        answer = browser.post("/leaks/new", data=typed)
    assert (answer.status_code, "You are not signed in any more." in answer.text) == (403, True)
    assert "Mill Lane" in answer.text  # what was typed is kept on the page
    assert count(store, JOURNAL) == before


def test_a_contractors_late_entry_comes_in_by_its_day_and_a_late_page_goes_to_the_supervisor(open_site):
    """Their role bounds them to their company's work; after its last day they see nothing of it any more."""
    book, dale = open_site.book, "Dale Pipe Co"
    person = m.person("L. Quist")
    role = m.role_given(person["id"], area=book.area, company=dale, until_on=LAST_DAY)
    crew = m.crew(book, company=dale, members=[{"key": "m1", "person": person["id"]}])
    leak = m.leak(book)
    book.say(person, role, crew, leak, m.given(leak["id"], crew=crew["id"]))
    who = Actor(person=read_id(person["id"]), sure="password")
    with time_machine.travel(at(4, "20:00"), tick=False):
        phone, browser = program(open_site, who), open_site.client(who)
        token = TOKEN.search(browser.get(f"/leaks/{leak['id']}/note").text)
    visit = m.visit(leak["id"], happened=LAST_DAY)
    assert sent(phone, visit, written=at(4, "21:00")) == 201
    assert [gap["code"] for gap in rows(book.store, GAP)] == ["sent_after_leaving"]
    note = {"note-id": m.new_id(), "note-happened": [LAST_DAY, ""], "note-text": "The valve is shut"}
    with time_machine.travel(at(5, "08:00"), tick=False):
        kept = browser.post(f"/leaks/{leak['id']}/note", data={"csrf_token": token[1], **note, "save": "1"})
        shown = open_site.client(book.supervisor).get(f"/leaks/{leak['id']}/note?unfinished={note['note-id']}")
    assert (kept.status_code, "a supervisor can see it" in kept.text, "Your role ended" in kept.text) == (
        403,
        True,
        True,
    )
    assert (shown.status_code, "The valve is shut" in shown.text, "L. Quist" in shown.text) == (200, True, True)
