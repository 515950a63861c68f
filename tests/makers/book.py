"""A small invented book: an operator, two areas, four people and a lot; and entries to say about its leaks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import count
from typing import Any

from repairlog.access import Actor, Membership
from repairlog.entries.entry import Moments
from repairlog.entries.ids import read_id, uuid7
from repairlog.intake import record
from repairlog.records.post import Receipt
from repairlog.records.store import Store
from tests.makers.once import once

PRACTICE = "65b6a519c64e814d52a6dd34e88637e10d446b65d86ec4bb152696e92cc25823"
PROPOSAL = "3d6ffccdcc361b8bab5863c3813c14770e437b07ec7ec9353220c08578c2121f"
"""Digests of the invented rulebooks in `own_rulebooks`: they stand in sealed lines."""

RECEIVED = datetime(2026, 3, 5, 15, 20, 12, 480_000, tzinfo=UTC)
_numbers = count(1)


def new_id() -> str:
    """The next id: always the same in the same order, so that failures repeat."""
    number = next(_numbers)
    return str(uuid7(at=RECEIVED + timedelta(milliseconds=number), random=number.to_bytes(10, "big")))


@dataclass(frozen=True)
class Book:
    """An open book with the ids of what stands in it. `say` posts entries as the person given, or `everyone`, who
    holds every role."""

    store: Store
    operator: str
    area: str
    other_area: str
    everyone: Actor
    crew: Actor
    supervisor: Actor
    officer: Actor
    lot: str

    def say(self, *entries: dict[str, Any], by: Actor | None = None, moments: Moments | None = None) -> list[Receipt]:
        """Record these entries in one call."""
        at = moments or Moments(received=RECEIVED)
        return record(self.store, list(entries), actor=by or self.everyone, moments=at)


@once
def opened(store: Store) -> Book:
    """Open the book of an invented operator on an empty database."""
    operator, area, other_area, lot = (new_id() for _ in range(4))
    people = {role: new_id() for role in ("administrator", "crew", "supervisor", "officer")}
    everyone = Actor(person=read_id(people["administrator"]), sure="system")
    day = {"happened": "2025-01-02"}
    record(
        store,
        [
            {"kind": "operator_opened", "id": operator, "name": "Saltmarsh Gas", "zone": "America/New_York", **day},
            {"kind": "area_opened", "id": area, "name": "Eastmarsh", "code": "ES", "zone": "America/New_York", **day},
            {
                "kind": "area_opened",
                "id": other_area,
                "name": "Highfold",
                "code": "HF",
                "zone": "America/Denver",
                "elevation": "5280 ft",
                **day,
            },
            _person(people["administrator"], "R. Tolland", "administrator"),
            _person(people["crew"], "M. Aldous", "crew", area=area),
            _person(people["supervisor"], "D. Okoro", "supervisor", area=area),
            _person(people["officer"], "P. Lindqvist", "officer"),
            {
                "kind": "lot_received",
                "id": lot,
                "area": area,
                "item": "wrap tape, 2 in",
                "lot_number": "W-0118",
                "expires_on": "2026-09-30",
                **day,
            },
        ],
        actor=everyone,
        moments=Moments(received=RECEIVED - timedelta(days=30)),
    )
    return Book(
        store=store,
        operator=operator,
        area=area,
        other_area=other_area,
        everyone=everyone,
        crew=_actor(people["crew"], "crew", area=area),
        supervisor=_actor(people["supervisor"], "supervisor", area=area),
        officer=_actor(people["officer"], "officer"),
        lot=lot,
    )


def _person(id: str, name: str, role: str, area: str | None = None) -> dict[str, Any]:
    row = {"key": "r1", "role": role, "from_on": "2025-01-02"} | ({"area": area} if area else {})
    return {"kind": "person_added", "id": id, "name": name, "happened": "2025-01-02", "roles": [row]}


def _actor(id: str, role: str, area: str | None = None) -> Actor:
    held = Membership(role=role, area=read_id(area) if area else None, from_on="2025-01-02")
    return Actor(person=read_id(id), sure="password", memberships=(held,), signed_in_on="2025-01-02")


def leak(book: Book, **fields: Any) -> dict[str, Any]:
    """A leak reported in Quarry Lane on 3 March 2026."""
    return {
        "kind": "leak_opened",
        "id": new_id(),
        "area": book.area,
        "happened": "2026-03-03 07:52",
        "house_number": "14",
        "street": "Quarry Lane",
        "town": "Harrowsedge",
        "detected_by": "odor_call",
    } | fields


def source(leak: str, **fields: Any) -> dict[str, Any]:
    """A threaded tee on a steel service."""
    return {
        "kind": "source_added",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-03 09:05",
        "part": "service",
        "component": "threaded tee",
        "material": "steel",
        "size": "3/4 in",
        "pressure": "45 psi",
    } | fields


def otherwise(leak: str, source: str, **fields: Any) -> dict[str, Any]:
    """It turns out to be a plastic main with a crack."""
    said = {"kind": "source_changed", "id": new_id(), "leak": leak, "source": source, "happened": "2026-03-05 09:50"}
    return said | {"part": "main", "material": "plastic_pe", "defect": "crack", "how_known": "seen_in_the_dig"} | fields


def visit(leak: str, **fields: Any) -> dict[str, Any]:
    """A first investigation with two bar holes and a vault."""
    return {
        "kind": "visit",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-03 08:26",
        "purpose": "first_investigation",
        "outcome": "looked",
        "places": [
            {"key": "p1", "kind": "bar_hole", "owner": "gas", "label": "6 ft from wall", "from_building": "6 ft"},
            {"key": "p2", "kind": "bar_hole", "owner": "gas", "label": "over the service"},
            {"key": "p3", "kind": "vault", "owner": "telephone", "from_building": "30 ft"},
        ],
        "readings": [
            {"key": "r1", "place": "p1", "value": "0 %LEL", "kind": "sustained"},
            {"key": "r2", "place": "p2", "value": "60 %LEL", "kind": "sustained"},
            {"key": "r3", "place": "p3", "value": "35 %LEL", "kind": "peak"},
        ],
    } | fields


def grade(leak: str, **fields: Any) -> dict[str, Any]:
    """Grade 2, set after the first investigation."""
    return {"kind": "grade_set", "id": new_id(), "leak": leak, "happened": "2026-03-03 08:40", "grade": "2"} | fields


def attempt(leak: str, **fields: Any) -> dict[str, Any]:
    """A permanent clamp, tight in the crew's word, no materials."""
    return {
        "kind": "repair_attempted",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-05 10:02",
        "lasting": "permanent",
        "method": "bolt_on_clamp",
        "cause": "corrosion_failure",
        "hole_size": "1/16 in",
        "pressure_found": "45 psi",
        "pipe_temperature": "57 F",
        "outcome": "tight",
    } | fields


def test_of(leak: str, attempt: str, **fields: Any) -> dict[str, Any]:
    """A soap test at line pressure, tight."""
    return {
        "kind": "tested",
        "id": new_id(),
        "leak": leak,
        "attempt": attempt,
        "happened": "2026-03-05 10:20",
        "kind_of_test": "soap",
        "pressure": "45 psi",
        "result": "tight",
    } | fields


def review(leak: str, attempt: str, **fields: Any) -> dict[str, Any]:
    """The supervisor accepts."""
    return {
        "kind": "repair_reviewed",
        "id": new_id(),
        "leak": leak,
        "attempt": attempt,
        "happened": "2026-03-05 10:22",
        "outcome": "accepted",
    } | fields


def ending(leak: str, attempts: Sequence[str] = (), **fields: Any) -> dict[str, Any]:
    """Repaired for good, by these attempts."""
    rows = [{"key": f"a{place}", "attempt": id} for place, id in enumerate(attempts, start=1)]
    return {
        "kind": "leak_ended",
        "id": new_id(),
        "leak": leak,
        "happened": "2026-03-05 10:23",
        "how": "repaired",
        "attempts": rows,
    } | fields


def corrected(entry: str, *changes: tuple[str, str | None], **fields: Any) -> dict[str, Any]:
    """A correction: field and what it should say, None to take it away."""
    rows = [
        {"key": f"c{place}", "field": path} | ({"to": to} if to is not None else {})
        for place, (path, to) in enumerate(changes, start=1)
    ]
    return {"kind": "corrected", "id": new_id(), "entry": entry, "reason": "misread", "changes": rows} | fields


def void(entry: str, **fields: Any) -> dict[str, Any]:
    """An entry made in error."""
    return {"kind": "void", "id": new_id(), "entry": entry, "reason": "entered on the wrong leak"} | fields


def note(subject: str, **fields: Any) -> dict[str, Any]:
    """A note on a leak or on anything else."""
    said = {"kind": "note", "id": new_id(), "subject": subject, "happened": "2026-03-04", "text": "dog in the yard"}
    return said | fields


def reopened(leak: str, **fields: Any) -> dict[str, Any]:
    """The leak is open again on the morning after."""
    said = {"kind": "leak_reopened", "id": new_id(), "leak": leak, "happened": "2026-03-06 08:00"}
    return said | {"reason": "an odor again"} | fields


def downgrade(leak: str, grade_set: str, **fields: Any) -> dict[str, Any]:
    """A lower grade is approved."""
    said = {"kind": "downgrade_reviewed", "id": new_id(), "leak": leak, "grade_set": grade_set}
    return said | {"happened": "2026-03-04 12:00", "outcome": "approved"} | fields


def scheduled(leak: str, **fields: Any) -> dict[str, Any]:
    """The repair is scheduled for a week ahead."""
    said = {"kind": "scheduled_for_repair", "id": new_id(), "leak": leak, "happened": "2026-03-04"}
    return said | {"scheduled": "yes", "for_on": "2026-03-11"} | fields


def given(leak: str, **fields: Any) -> dict[str, Any]:
    """A repair is given to a crew by its name."""
    said = {"kind": "work_given", "id": new_id(), "leak": leak, "happened": "2026-03-03 09:30", "work": "repair"}
    return said | {"named": "Truck 4"} | fields


def settled(leak: str, given: str, **fields: Any) -> dict[str, Any]:
    """Work is taken back."""
    said = {"kind": "work_settled", "id": new_id(), "leak": leak, "given": given, "happened": "2026-03-04 07:00"}
    return said | {"outcome": "taken_back"} | fields


def waiting(leak: str, **fields: Any) -> dict[str, Any]:
    """The work waits on a permit."""
    said = {"kind": "work_waiting", "id": new_id(), "leak": leak, "happened": "2026-03-03 11:00"}
    return said | {"waits_on": "permit", "until_on": "2026-03-09"} | fields


def goes_on(leak: str, **fields: Any) -> dict[str, Any]:
    """The work waits no longer."""
    return {"kind": "work_goes_on", "id": new_id(), "leak": leak, "happened": "2026-03-04 08:00"} | fields


def briefing(leak: str, **fields: Any) -> dict[str, Any]:
    """The crew talks the work over."""
    said = {"kind": "briefing_given", "id": new_id(), "leak": leak, "happened": "2026-03-05 07:30"}
    return said | {"topics": "traffic; who stays at the valve"} | fields


def set_aside(subject: str, about: str, gap: str, **fields: Any) -> dict[str, Any]:
    """A gap is set aside."""
    said = {"kind": "gap_set_aside", "id": new_id(), "subject": subject, "about": about, "gap": gap}
    return said | {"happened": "2026-03-05 10:15", "reason": "looked into; nothing to be done"} | fields


def person(name: str, **fields: Any) -> dict[str, Any]:
    """Somebody of the operator's own, without a role."""
    return {"kind": "person_added", "id": new_id(), "name": name, "happened": "2025-02-03"} | fields


def role_given(person: str, role: str = "crew", **fields: Any) -> dict[str, Any]:
    """A role from 2 March 2026 on, in every area."""
    said = {"kind": "role_given", "id": new_id(), "subject": person, "happened": "2026-03-02", "role": role}
    return said | {"from_on": "2026-03-02"} | fields


def qualified(person: str, **fields: Any) -> dict[str, Any]:
    """Qualified to install clamps, for a year."""
    said = {"kind": "qualified", "id": new_id(), "subject": person, "happened": "2026-01-05", "task": "install clamp"}
    return said | {"until_on": "2027-01-05", "method": "observation"} | fields


def unqualified(person: str, **fields: Any) -> dict[str, Any]:
    """The same suspended."""
    said = {"kind": "qualification_ended", "id": new_id(), "subject": person, "happened": "2026-02-01"}
    return said | {"task": "install clamp", "how": "suspended", "reason": "a test was missed"} | fields


def crew(book: Book, **fields: Any) -> dict[str, Any]:
    """A crew of one, since 2025."""
    said = {"kind": "crew_made", "id": new_id(), "area": book.area, "name": "Truck 4", "happened": "2025-02-03"}
    return said | {"members": [{"key": "m1", "person": str(book.crew.person)}]} | fields


def crew_changed(crew: str, **fields: Any) -> dict[str, Any]:
    """Another name for a crew."""
    said = {"kind": "crew_changed", "id": new_id(), "subject": crew, "happened": "2026-02-02", "name": "Truck 5"}
    return said | fields


def instrument(book: Book, **fields: Any) -> dict[str, Any]:
    """A gas detector."""
    said = {"kind": "instrument_added", "id": new_id(), "area": book.area, "mark": "G-3", "what": "gas detector"}
    return said | {"happened": "2025-02-03"} | fields


def calibrated(instrument: str, **fields: Any) -> dict[str, Any]:
    """Calibrated for a quarter of a year."""
    said = {"kind": "instrument_calibrated", "id": new_id(), "subject": instrument, "happened": "2026-01-07"}
    return said | {"result": "in_tolerance", "next_due_on": "2026-04-07"} | fields


def checked(instrument: str, **fields: Any) -> dict[str, Any]:
    """Checked with gas on a morning, and good."""
    said = {"kind": "instrument_checked", "id": new_id(), "subject": instrument, "happened": "2026-03-03 06:40"}
    return said | {"cylinder_named": "50 %LEL", "expected": "50 %LEL", "read": "49 %LEL", "result": "good"} | fields


def adopted(area: str, **fields: Any) -> dict[str, Any]:
    """The invented practice is adopted, from the beginning on."""
    said = {"kind": "rulebook_adopted", "id": new_id(), "subject": area, "happened": "2025-01-02"}
    return said | {"rulebook": "saltmarsh-practice", "digest": PRACTICE, "from_on": "2020-01-01"} | fields


def confirmed(area: str, rule: str = "repair-2", **fields: Any) -> dict[str, Any]:
    """A rule of it is confirmed with the manual in hand."""
    said = {"kind": "rule_confirmed", "id": new_id(), "subject": area, "happened": "2025-01-03"}
    said |= {"rulebook": "saltmarsh-practice", "digest": PRACTICE, "rule": rule}
    return said | {"document": "manual, revision 7", "page": "4-12"} | fields


def working_days(area: str, **fields: Any) -> dict[str, Any]:
    """The working days of New York."""
    said = {"kind": "working_days_set", "id": new_id(), "subject": area, "happened": "2025-01-02"}
    return said | {"calendar": "US-NY"} | fields


def cut_over(area: str, **fields: Any) -> dict[str, Any]:
    """What is missing is raised from 4 March 2026 on."""
    said = {"kind": "cut_over_set", "id": new_id(), "subject": area, "happened": "2026-03-01"}
    return said | {"cut_over_on": "2026-03-04"} | fields


def typing_time(area: str, **fields: Any) -> dict[str, Any]:
    """What is typed more than three days after the work is raised."""
    said = {"kind": "typing_time_set", "id": new_id(), "subject": area, "happened": "2026-03-01"}
    return said | {"hours": 72} | fields


def own_acceptance(area: str, **fields: Any) -> dict[str, Any]:
    """Whoever did the work does not accept it."""
    said = {"kind": "own_acceptance_said", "id": new_id(), "subject": area, "happened": "2026-03-01"}
    return said | {"accepts": "no", "reason": "there is a second supervisor"} | fields


def moved(subject: str, to: str, **fields: Any) -> dict[str, Any]:
    """Moved to that area on 5 March 2026."""
    said = {"kind": "subject_moved", "id": new_id(), "subject": subject, "happened": "2026-03-05", "to_area": to}
    return said | {"reason": "it hangs on their main"} | fields
