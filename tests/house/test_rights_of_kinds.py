"""Who may post what through the interface for programs: every kind of entry, by every role, by a person of another area
and by nobody."""

from __future__ import annotations

from typing import Any

import pytest

from repairlog.access import Actor
from repairlog.entries.kinds import KINDS
from repairlog.records.store import Store
from repairlog.records.tables.journal import JOURNAL
from tests.access.test_posts import FURTHER
from tests.makers import book as m
from tests.makers.copies import count
from tests.makers.every_kind import every_kind
from tests.makers.program import ROLES, Program, actors, program
from tests.makers.site import site

# The status that each is answered with. 201: recorded. 401: whose token is it? 403: refused. Only the opening of the
# book is told to all, 422, that there is one already. The crew, the supervisor and the leak are of one area, `foreign`
# is a supervisor of the other one, the officer and the administrator are of every area. After the kind of what puts an
# entry right stands whose and what that entry is.
TABLE = """
what                    crew  supervisor  officer  administrator  foreign  nobody
operator_opened         422   422         422      422            422      401
area_opened             403   403         403      201            403      401
person_added            403   403         403      201            403      401
company_added           403   403         403      201            403      401
company_back            403   403         403      201            403      401
company_left            403   403         403      201            403      401
crew_made               403   201         201      201            403      401
crew_changed            403   201         201      201            403      401
cut_over_set            403   403         403      201            403      401
rulebook_adopted        403   403         201      201            403      401
rule_confirmed          403   403         201      201            403      401
working_days_set        403   403         201      201            403      401
typing_time_set         403   403         201      201            403      401
own_acceptance_said     403   403         201      201            403      401
role_given              403   403         403      201            403      401
role_ended              403   403         403      201            403      401
person_left             403   403         403      201            403      401
qualified               403   403         201      201            403      401
qualification_ended     403   403         201      201            403      401
instrument_added        201   201         201      201            403      401
instrument_calibrated   403   201         201      201            403      401
instrument_checked      201   201         201      201            403      401
instrument_retired      403   201         201      201            403      401
lot_received            403   201         201      201            403      401
shelf_made              403   201         201      201            403      401
lot_moved               201   201         201      201            403      401
temperature_logged      201   201         201      201            403      401
lot_counted             403   201         201      201            403      401
lot_used                201   201         201      201            403      401
lot_quarantined         201   201         201      201            403      401
lot_released            403   201         201      201            403      401
lot_scrapped            403   201         201      201            403      401
leak_opened             201   201         201      403            403      401
source_added            201   201         201      403            403      401
grade_set               201   201         201      403            403      401
leak_ended              403   201         201      403            403      401
source_changed          201   201         201      403            403      401
visit                   201   201         201      403            403      401
repair_attempted        201   201         201      403            403      401
tested                  201   201         201      403            403      401
repair_reviewed         403   201         201      403            403      401
leak_reopened           403   201         201      403            403      401
downgrade_reviewed      403   201         201      403            403      401
scheduled_for_repair    403   201         201      403            403      401
work_given              403   201         201      403            403      401
work_settled            201   201         201      403            403      401
work_waiting            201   201         201      403            403      401
work_goes_on            201   201         201      403            403      401
briefing_given          201   201         201      403            403      401
gap_set_aside           403   403         201      403            403      401
call_received           201   201         201      403            403      401
call_sent               201   201         201      403            403      401
call_on_way             201   201         201      403            403      401
call_on_site            201   201         201      403            403      401
call_outcome            201   201         201      403            403      401
call_reviewed           403   201         201      403            403      401
moment_noted            201   201         201      403            403      401
watch_handed            201   201         201      403            403      401
emergency_reviewed      403   201         201      403            403      401
told                    201   201         201      403            403      401
decided                 403   201         201      403            403      401
note                    201   201         201      201            403      401
dig_opened              201   201         201      403            403      401
dig_found               201   201         201      403            403      401
pipe_exposed            201   201         201      403            403      401
dig_backfilled          201   201         201      403            403      401
restoration_owed        201   201         201      403            403      401
restored                201   201         201      403            403      401
place_added             201   201         201      201            403      401
place_retired           403   201         201      201            403      401
outside_number_added    201   201         201      201            403      401
linked                  201   201         201      403            403      401
made_one                403   201         201      201            403      401
streets_made_one        403   201         201      201            403      401
attached                201   201         201      201            403      401
subject_moved           403   201         201      403            403      401
figure_kept             201   201         201      201            403      401
corrected:crew_visit    201   201         201      403            403      401
corrected:other_visit   403   201         201      403            403      401
corrected:lot           403   201         201      201            403      401
corrected:person        403   403         403      201            403      401
void:crew_visit         201   201         201      403            403      401
void:other_visit        403   201         201      403            403      401
void:lot                403   201         201      201            403      401
void:person             403   403         403      201            403      401
"""
HEAD, *ROWS = (line.split() for line in TABLE.strip().splitlines())
WHO = (*ROLES, "nobody")


@pytest.fixture
def book(sqlite_store: Store) -> m.Book:
    """An open book."""
    return m.opened(sqlite_store)


@pytest.fixture
def programs(book: m.Book) -> dict[str, Program]:
    """By who sends, a program with their token; nobody's has none."""
    open_site, people = site(book), actors(book)
    return {name: program(open_site, people.get(name)) for name in WHO}


def entry_for(what: str, book: m.Book, programs: dict[str, Program], *, who: str) -> dict[str, Any]:
    """A new entry of that row, for whoever sends it."""
    kind, _, of = what.partition(":")
    if of:
        return _righting(kind, _spoken_of(of, book, programs), what=of)
    if kind == "operator_opened":
        opening = {"name": "Saltmarsh Gas", "zone": "America/New_York", "happened": "2025-01-02"}
        return {"kind": kind, "id": m.new_id(), **opening}
    made = every_kind(book)[kind]
    return made | ({"code": who[:8]} if kind == "area_opened" else {})  # a code that nobody else takes


def _spoken_of(of: str, book: m.Book, programs: dict[str, Program]) -> str:
    """The id of a new entry to be put right, posted just now by who may."""
    if of == "person":
        entry = every_kind(book)["person_added"]
    elif of == "lot":
        entry = every_kind(book)["lot_received"]
    else:
        leak = m.leak(book)
        book.say(leak)
        entry = m.visit(leak["id"])
    by = {"person": "administrator", "lot": "supervisor", "crew_visit": "crew", "other_visit": "supervisor"}[of]
    assert programs[by].post(entry).status_code == 201
    return str(entry["id"])


def _righting(kind: str, entry: str, *, what: str) -> dict[str, Any]:
    change = {"person": ("staff_number", "88"), "lot": ("shelf", "7")}.get(what, ("remarks", "smell at the gate"))
    return m.void(entry) if kind == "void" else m.corrected(entry, change)


def test_every_kind_has_its_rows() -> None:
    assert {row[0].partition(":")[0] for row in ROWS} == set(KINDS)
    assert tuple(HEAD[1:]) == WHO


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_a_kind_is_posted_by_whom_the_table_names(book: m.Book, programs: dict[str, Program], row: list[str]) -> None:
    answers = {}
    for who in WHO:
        entry = entry_for(row[0], book, programs, who=who)
        before = count(book.store, JOURNAL)
        answers[who] = programs[who].post(entry).status_code
        assert count(book.store, JOURNAL) == before + (answers[who] == 201)
    assert answers == dict(zip(WHO, map(int, row[1:]), strict=True))


@pytest.mark.parametrize("role", FURTHER)
def test_every_kind_is_posted_by_the_further_roles_as_was_agreed(book: m.Book, role: str) -> None:
    """Whoever may see nothing of what an entry names is refused like whoever may not post it."""
    person = m.person(f"the {role}")
    month = {"until_on": "2999-12-31", "period_from_on": "2026-03-01", "period_until_on": "2026-03-31"}
    book.say(person, m.role_given(person["id"], role, area=book.area, **(month if role == "inspector" else {})))
    sender = program(site(book), Actor(person=m.read_id(person["id"]), sure="password"))
    answers = {kind: sender.post(entry).status_code for kind, entry in every_kind(book).items()}
    assert answers == {kind: 201 if kind in FURTHER[role] else 403 for kind in answers}
    assert set(answers) == set(KINDS) - {"operator_opened"}
