"""One entry of every kind on an open book, so that a test can try what it tries on each of them."""

from __future__ import annotations

from typing import Any

from repairlog.entries.fields import EntryKind, Field
from repairlog.entries.kinds import KINDS
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import companies
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.kept import whole


def every_kind(book: m.Book) -> dict[str, dict[str, Any]]:
    """By kind, one raw entry each that can be posted after `prepared`; of the operator's opening there is only one,
    and it is not among them."""
    leak, source, attempt, right = prepared(book)
    day = {"happened": "2026-03-02"}
    person = {"key": "p1", "person": str(book.crew.person), "task": "install clamp"}
    made: list[dict[str, Any]] = [
        {"kind": "area_opened", "id": m.new_id(), "name": "Weirside", "code": "WS", "zone": "America/Chicago", **day},
        {"kind": "person_added", "id": m.new_id(), "name": "T. Birkett", **day}
        | {"roles": [{"key": "r1", "role": "crew", "area": book.area, "from_on": "2026-03-02"}]},
        {"kind": "crew_made", "id": m.new_id(), "area": book.area, "name": "Truck 4", **day}
        | {"members": [{"key": "m1", "person": str(book.crew.person)}]},
        {"kind": "lot_received", "id": m.new_id(), "area": book.area, "item": "clamp", "lot_number": "K-7", **day},
        m.leak(book, reporter_name="J. Thwaite", street="Mill Lane")
        | {"outside_numbers": [{"key": "n1", "what": "work order", "number": "77-120"}]},
        m.source(leak),
        m.otherwise(leak, source),
        m.visit(leak),
        m.grade(leak),
        m.attempt(leak, source=source, materials=[{"key": "m1", "lot": book.lot}], people=[person]),
        m.test_of(leak, attempt),
        m.review(leak, attempt),
        m.ending(leak, [attempt]),
        m.downgrade(leak, attempt),
        m.settled(leak, attempt),
        m.set_aside(leak, attempt, "no_such_gap"),
        # a street and a lot are left, so that rows are taken away, too, and every leak of the lot is folded
        m.corrected(leak, ("street", "Mill Lane"), ("reporter_name", "J. Thwaites")),
        m.void(right),
        *_of_digs(book, leak, attempt),
        m.adopted(book.area),
        m.confirmed(book.area),
        m.working_days(book.area),
        *_of_stores(book),
    ]
    found = {entry["kind"]: entry for entry in made}
    found |= {entry["kind"]: entry for entry in _calls(book, leak)}
    others = [kind for name, kind in KINDS.items() if name not in (*found, "operator_opened")]
    return found | {kind.name: _least(book, kind, leak=leak) for kind in others}


def _of_stores(book: m.Book) -> list[dict[str, Any]]:
    lot, truck = s.received(book), s.shelf(book)
    book.say(lot, truck)
    of_a_lot = (s.moved, s.counted, s.used, s.quarantined, s.released, s.scrapped)
    return [s.shelf(book), s.temperature(truck["id"]), *(make(lot["id"]) for make in of_a_lot)]


def _of_digs(book: m.Book, leak: str, attempt: str) -> list[dict[str, Any]]:
    dig, place, lot = d.dig(book, [leak]), d.place(book), m.new_id()
    owed = d.owed(dig["id"])
    again = {"kind": "lot_received", "id": lot, "area": book.area, "item": "tape", "lot_number": "W 0118"}
    book.say(dig, owed, place, again | {"happened": "2026-03-02"})
    return [
        d.dig(book, [leak]),
        d.found(dig["id"]),
        d.exposed(dig["id"]),
        d.backfilled(dig["id"]),
        d.owed(dig["id"]),
        d.restored(dig["id"], owed=owed["id"]),
        d.place(book),
        d.retired(place["id"]),
        d.number(leak),
        d.linked(leak, dig["id"]),
        d.made_one(book.lot, lot),
        d.streets(book.area, ("Quarry Lane", "Harrowsedge"), ("Quarry Ln", "Harrowsedge")),
        d.attached(leak),
        whole(leak, from_entry=attempt),
    ]


def _calls(book: m.Book, leak: str) -> list[dict[str, Any]]:
    """What is entered about a call, and at a leak in its first hour; the call stands before, in another street."""
    before = c.call(book, street="Weir Street")
    book.say(before)
    call = before["id"]
    return [
        c.call(book, caller_name="J. Thwaite", caller_phone="555-0142", street="Fuller Row")
        | {"outside_numbers": [{"key": "n1", "what": "premise", "number": "P-30117"}]},
        c.sent(call, person=str(book.crew.person)),
        c.on_way(call),
        c.on_site(call, named="a helper"),
        c.outcome(call, outcome="operators_leak", found_leak=leak),
        c.reviewed(call),
        c.moment(leak, people_count=6),
        c.emergency_reviewed(leak, found="out in four minutes"),
        c.watch(leak, next_reading_by="2026-03-03 15:00"),
        c.told(leak),
        c.decided(call),
    ]


def prepared(book: m.Book) -> tuple[str, str, str, str]:
    """A leak with a source, an attempt and a correction of that: their ids."""
    leak = m.leak(book, reporter_name="J. Thwaite")
    source = m.source(leak["id"])
    attempt = m.attempt(leak["id"], source=source["id"], materials=[{"key": "m1", "lot": book.lot}])
    right = m.corrected(attempt["id"], ("outcome", "not_tight"))
    book.say(leak, source, attempt, right)
    return leak["id"], source["id"], attempt["id"], right["id"]


def _least(book: m.Book, kind: EntryKind, *, leak: str) -> dict[str, Any]:
    """An entry that says what its kind demands and no more."""
    said = {each.name: _value(book, each, leak=leak) for each in kind.fields if each.required}
    return {"kind": kind.name, "id": m.new_id()} | said


def _value(book: m.Book, field: Field, *, leak: str) -> str | int:
    if field.kind == "whole":
        return field.least
    if field.kind == "ref":
        known = {"area": book.area, "lot": book.lot, "person": str(book.crew.person)}
        return {**known, **_opened(book, field.refers_to)}.get(field.refers_to, leak)
    if field.kind in ("when", "day"):
        return "2026-03-04"
    return field.codes[0] if field.codes else f"the {field.says}"


def _opened(book: m.Book, kind: str) -> dict[str, str]:
    """A company, a crew or an instrument, where one is asked for, put into the book."""
    make = {"crew": m.crew, "instrument": m.instrument}.get(kind)
    if make is None and kind != "company":
        return {}
    made = make(book) if make else companies.company()
    book.say(made)
    return {kind: made["id"]}
