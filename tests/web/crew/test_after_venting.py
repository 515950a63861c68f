"""A crew that lowers a grade after venting sees the wait and the second reading that the rulebook asks for."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.makers import book as m
from tests.makers.form_page import form_page, press_on
from tests.makers.site import site
from tests.web.crew.test_least import entered, told, visit_to

ASKED = "Before a lower grade wait 24 hours after venting, then read again (4.7)."
LATER = {"visit__happened": ["2026-03-05", "09:10"]}


@pytest.fixture
def vented(book: m.Book, leak: str) -> m.Book:
    """Grade 1, vented on 3 March until 10 in the morning, in an area whose rulebook asks for a day's wait."""
    bound = book.store.rulebooks.offered()["saltmarsh-venting"]
    book.say(m.adopted(book.area, rulebook="saltmarsh-venting", digest=bound.digest))
    book.say(
        m.visit(leak, venting_started="2026-03-03 08:30", venting_stopped="2026-03-03 10:00"), m.grade(leak, grade="1")
    )
    return book


def lower(crew: FlaskClient, leak: str, *, hour: str, page: Any = None) -> Any:
    at = f"/leaks/{leak}/grade"
    typed = {"grade__happened": ["2026-03-04", hour], "grade__grade": "2", "grade__reason": "vented"}
    return press_on(crew, at, page or form_page(crew.get(at)), **typed)


def test_a_lower_grade_without_the_second_reading_is_shown_once_kept_and_raised(vented: m.Book, leak: str) -> None:
    crew = site(vented).client(vented.crew)
    shown = lower(crew, leak, hour="11:00")
    assert (shown.status_code, ASKED in told(shown)) == (200, True)
    assert "Venting stopped on 3 Mar 2026 10:00, and nobody has read since." in told(shown)
    assert "a supervisor looks it over" in told(shown)
    assert entered(vented, "grade_set", "grade") == [("1",)]
    assert lower(crew, leak, hour="11:00", page=form_page(shown)).status_code == 303
    supervisor = site(vented).client(vented.supervisor)
    raised = "nobody read again since venting stopped on 3 Mar 2026: the rulebook asks for 24 hours"
    [graded] = [id for id, grade in entered(vented, "grade_set", "id", "grade") if grade == "2"]
    assert raised in supervisor.get("/gaps").text
    assert raised in supervisor.get(f"/leaks/{leak}/grades/{graded}/review").text


@pytest.mark.parametrize(("hour", "status"), [("09:59", 200), ("10:00", 303), ("10:01", 303)])
def test_once_somebody_read_after_the_wait_a_lower_grade_is_saved_at_once(
    vented: m.Book, leak: str, hour: str, status: int
) -> None:
    vented.say(m.visit(leak, happened=f"2026-03-04 {hour}", readings=[{"key": "r1", "place": "p1", "value": "0 %LEL"}]))
    assert lower(site(vented).client(vented.crew), leak, hour="11:00").status_code == status


def test_the_reading_of_the_visit_being_typed_counts_and_so_does_venting_typed_with_it(
    vented: m.Book, leak: str
) -> None:
    crew = site(vented).client(vented.crew)
    kept = visit_to(crew, leak, "0 %LEL", press="check=one", grade__grade="2", **LATER)
    assert "the last reading was on 5 Mar 2026 09:10: the wait was kept." in told(kept)
    again = {"visit__venting_started": ["2026-03-05", "08:00"]}
    going_on = visit_to(crew, leak, "0 %LEL", press="check=one", grade__grade="2", **LATER, **again)
    assert "Nobody said yet when venting stopped." in told(going_on)
    assert visit_to(crew, leak, "0 %LEL", grade__grade="2", **LATER, **again).status_code == 200
    assert visit_to(crew, leak, "0 %LEL", grade__grade="2", **LATER).status_code == 303


def test_a_rulebook_that_names_no_wait_says_what_the_operator_fills_in_and_raises_nothing(
    book: m.Book, leak: str
) -> None:
    guide = book.store.rulebooks.offered()["us-guide"]
    book.say(m.adopted(book.area, rulebook="us-guide", digest=guide.digest))
    book.say(m.visit(leak, venting_stopped="2026-03-03 10:00"), m.grade(leak, grade="1"))
    crew = site(book).client(book.crew)
    page = crew.get(f"/leaks/{leak}/grade")
    assert "To be filled in by the operator: how long to wait after venting" in told(page)
    assert visit_to(crew, leak, "0 %LEL", grade__grade="2").status_code == 303
