"""A role that is bounded to a company's work posts into that work, and nowhere else."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from repairlog.access import Actor, Membership, Refused
from repairlog.intake.sender import kept_sender, sender_read
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d

DALE = "Dale Pipe Co"


@dataclass(frozen=True)
class Hired:
    """A book, somebody who works for Dale as a crew and as a supervisor there, and their crew."""

    book: m.Book
    who: Actor
    crew: str

    def may(self, *entries: dict[str, Any], by: Actor | None = None) -> bool:
        """Whether they may post these in one call; what may be is posted."""
        try:
            self.book.say(*entries, by=by or self.who)
        except Refused:
            return False
        return True


@pytest.fixture
def hired(store: Store) -> Hired:
    book = m.opened(store)
    person = m.new_id()
    roles = [m.role_given(person, role, company=DALE) for role in ("crew", "supervisor")]
    crew = m.crew(book, company=DALE, members=[{"key": "m1", "person": person}])
    book.say({"kind": "person_added", "id": person, "name": "L. Quist", "happened": "2025-01-02"}, *roles, crew)
    held = (Membership(role=r, area=None, from_on="2026-03-02", company=DALE) for r in ("crew", "supervisor"))
    actor = Actor(person=m.read_id(person), sure="password", memberships=tuple(held), signed_in_on="2026-03-02")
    return Hired(book, actor, crew["id"])


def test_they_post_on_a_leak_once_it_is_given_to_their_crew(hired):
    leak = m.leak(hired.book)
    hired.book.say(leak)
    assert not hired.may(m.visit(leak["id"]))
    hired.book.say(m.given(leak["id"], crew=hired.crew))
    assert hired.may(m.visit(leak["id"]), m.attempt(leak["id"]))


def test_they_may_not_bring_a_leak_into_their_hands_by_their_own_entry(hired):
    leak = m.leak(hired.book)
    hired.book.say(leak)
    assert not hired.may(m.given(leak["id"], crew=hired.crew))
    assert not hired.may(m.given(leak["id"], crew=hired.crew), m.visit(leak["id"]))


def test_they_open_leaks_calls_and_digs_as_their_own_and_go_on_there(hired):
    leak, call = m.leak(hired.book), c.call(hired.book)
    dig = d.dig(hired.book, [leak["id"]])
    assert hired.may(leak, m.visit(leak["id"]), dig, d.backfilled(dig["id"]), call)
    assert hired.may(m.visit(leak["id"]), d.owed(dig["id"]), c.told(call["id"]))


def test_they_open_nothing_in_the_name_of_somebody_who_is_not_of_the_company(hired):
    leak = m.leak(hired.book, did=[{"key": "d1", "person": str(hired.book.crew.person)}])
    assert not hired.may(leak)


def test_they_reach_no_leak_or_call_by_naming_it(hired):
    book = hired.book
    leak, call, own, taken = m.leak(book), c.call(book), m.leak(book), c.call(book)
    book.say(leak, call)
    assert hired.may(own, taken)
    reaching = [
        d.dig(book, [own["id"], leak["id"]]),
        m.leak(book, from_call=call["id"]),
        c.outcome(taken["id"], outcome="operators_leak", found_leak=leak["id"]),
        d.linked(own["id"], leak["id"]),
    ]
    assert [hired.may(each) for each in reaching] == [False] * 4
    dig = d.dig(book, [own["id"]])
    assert hired.may(dig)
    assert not hired.may(m.corrected(dig["id"], ("leaks.l1.leak", leak["id"])))


@pytest.mark.parametrize("kind", ["lot_received", "crew_made", "crew_changed"])
def test_what_is_nobodys_work_they_do_not_post(hired, kind):
    book = hired.book
    lot = {"kind": "lot_received", "id": m.new_id(), "area": book.area, "item": "tape", "lot_number": "W-9"}
    entries = {
        "lot_received": lot | {"happened": "2026-03-03"},
        "crew_made": m.crew(book, happened="2026-03-03"),
        "crew_changed": m.crew_changed(hired.crew, happened="2026-03-03"),
    }
    whole = Actor(
        person=hired.who.person,
        sure="password",
        memberships=(Membership(role="supervisor", area=None, from_on="2026-03-02"),),
        signed_in_on="2026-03-02",
    )
    assert (hired.may(entries[kind]), hired.may(entries[kind], by=whole)) == (False, True)


def test_they_add_the_instrument_that_they_bring_with_its_calibration_and_say_none_of_another(hired):
    bring, other = m.instrument(hired.book), m.instrument(hired.book, mark="G-40")
    hired.book.say(other)
    assert hired.may(bring, m.calibrated(bring["id"]))
    assert not hired.may(m.calibrated(other["id"]))


def test_they_put_right_what_is_theirs_and_move_it_nowhere_else(hired):
    theirs, other = m.leak(hired.book), m.leak(hired.book)
    visit, note = m.visit(theirs["id"]), m.note(other["id"])
    hired.book.say(other, note)
    assert hired.may(theirs, visit)
    assert hired.may(m.corrected(visit["id"], ("remarks", "smell at the gate")))
    assert not hired.may(m.corrected(note["id"], ("text", "no dog")))
    assert not hired.may(m.corrected(visit["id"], ("leak", other["id"])))


def test_a_call_that_waits_is_tried_again_with_the_bound_of_its_sender(hired):
    moments = m.Moments(received=m.RECEIVED)
    assert sender_read(kept_sender(hired.who, moments))[0] == hired.who
