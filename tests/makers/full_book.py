"""A full invented book: every kind of entry, every list and every field at least once, put right in every way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from repairlog.access import Refused
from repairlog.entries.entry import Moments
from repairlog.intake import WaitsFor
from repairlog.records.store import Store
from tests.makers import book as m
from tests.makers import calls as c
from tests.makers import digs as d
from tests.makers import stores as s
from tests.makers.full_calls import calls_and_a_first_hour
from tests.makers.full_people import people_and_instruments
from tests.makers.kept import figure, whole
from tests.makers.once import once

WRITTEN = "2026-03-05T15:19:00.000Z"


@dataclass(frozen=True)
class FullBook:
    """The book, and what a test may want to find in it again: ids by name."""

    book: m.Book
    ids: dict[str, str]


@once
def filled(store: Store) -> FullBook:
    """Fill an empty database."""
    book = m.opened(store)
    ids = _stores_and_people(book)
    ids |= people_and_instruments(book, ids)
    ids |= _ended_leak(book, ids)
    ids |= _troubled_leak(book, ids)
    ids |= _moved(book, ids)
    ids |= _after_the_first_day(book, ids)
    _listed_leak(book, ids)
    _opened_in_error(book)
    ids |= s.in_stores(book)
    by_hand = {"temperature": "warm to the hand", "kept_as_text": [{"key": "k1", "field": "temperature"}]}
    book.say(s.temperature(ids["shelf"], instrument_used=ids["meter"]) | by_hand)
    ids |= _digs_and_ties(book, ids)
    ids |= calls_and_a_first_hour(book, ids)
    ids |= _to_another_area(book, ids)
    _beside(book)
    return FullBook(book, ids)


def _stores_and_people(book: m.Book) -> dict[str, str]:
    crew, expired, second = m.new_id(), m.new_id(), m.new_id()
    day = {"happened": "2025-02-03"}
    member = {"key": "m1", "person": str(book.crew.person), "from_on": "2025-02-03", "until_on": "2026-12-31"}
    lot = {"kind": "lot_received", "area": book.area, "maker": "Brackwater Works", "received": "40 rolls"}
    role = {"key": "r1", "role": "crew", "area": book.other_area, "from_on": "2025-02-03", "until_on": "2025-12-31"}
    role |= {"company": "Dale Pipe Company"}
    book.say(
        {"kind": "crew_made", "id": crew, "area": book.area, "name": "Truck 4", "company": "Saltmarsh Gas"}
        | {"members": [member]}
        | day,
        lot | {"id": expired, "item": "primer", "lot_number": "P-7", "shelf": "3", "expires_on": "2026-01-31"} | day,
        lot | {"id": second, "item": "clamp, 3/4 in", "lot_number": "C-22"} | day,
        {"kind": "person_added", "id": m.new_id(), "name": "L. Farrow", "company": "Dale Pipe Co", "staff_number": "88"}
        | {"roles": [role]}
        | day,
        {"kind": "area_opened", "id": m.new_id(), "name": "Cold Fell", "code": "CF", "zone": "America/Denver"}
        | {"elevation": "as high as the mast", "kept_as_text": [{"key": "k1", "field": "elevation"}]}
        | {"lel_basis": "4.4"}
        | day,
        m.corrected(book.lot, ("shelf", "7")),
        m.corrected(book.other_area, ("elevation", "5290 ft")),
    )
    return {"crew": crew, "expired": expired, "second": second}


def _ended_leak(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    numbers = [{"key": "n1", "what": "work order", "number": "W-4471"}, {"key": "n2", "what": "call", "number": "12"}]
    leak = m.leak(
        book,
        discovered="2026-03-03 07:40",
        cross_street="Mill Lane",
        postal_code="04417",
        location="by the gate",
        reporter_name="J. Penrose",
        reporter_address="2 Weir Street",
        coordinates="41.2 N, 73.1 W",
        outside_numbers=numbers,
    )
    source = m.source(
        leak["id"],
        installed_year=1968,
        installed_decade="1960s",
        coating="coal tar",
        defect="thread",
        location="under the path",
        written=WRITTEN,
    )
    visit = m.visit(
        leak["id"],
        ground="wet",
        extent="40 sq ft",
        instrument="G-3",
        instrument_used=ids["meter"],
        remarks="smell at the gate",
    )
    again = m.visit(
        leak["id"],
        happened="2026-03-04",
        purpose="re_evaluation",
        places=[
            {"key": "p1", "kind": "bar_hole", "same_as": f"{visit['id']}/p2"},
            {"key": "p2", "kind": "manhole", "owner": "sewer", "not_entered": "traffic"},
        ],
        readings=_every_gas(ids["meter"]),
    )
    grade = m.grade(leak["id"], criterion="over 40 %LEL by the wall", reason="near the house")
    attempt = _full_attempt(book, ids, leak["id"], source["id"])
    seen = {"remarks": "no bubbles", "leaks_found": "one at the union, tightened", "instrument_used": ids["meter"]}
    test = m.test_of(leak["id"], attempt["id"], duration="15 min", medium="air", instrument="T-1", **seen)
    review = m.review(leak["id"], attempt["id"], reason="seen on site")
    ending = m.ending(leak["id"], [attempt["id"]], reason="tight")
    book.say(leak, source, visit, again, grade)
    at_the_truck = Moments(received=m.RECEIVED, sent=m.RECEIVED - timedelta(milliseconds=120))
    book.say(attempt, test, by=book.crew, moments=at_the_truck)
    book.say(review, ending, by=book.supervisor)
    return {"ended": leak["id"], "attempt": attempt["id"], "visit": visit["id"]}


def _every_gas(meter: str) -> list[dict[str, Any]]:
    read = [
        ("methane", "2.5 %gas"),
        ("methane", "400 ppm"),
        ("methane", "60 ppm-m"),
        ("carbon_monoxide", "35 ppm CO"),
        ("propane", "0.4 %gas"),
        ("hydrogen", "1 %gas"),
    ]
    rows = [{"key": f"r{place}", "gas": gas, "value": value} for place, (gas, value) in enumerate(read, start=1)]
    rows[0] |= {"place": "p1", "kind": "sustained", "instrument": "G-4", "instrument_used": meter}
    return rows


def _full_attempt(book: m.Book, ids: dict[str, str], leak: str, source: str) -> dict[str, Any]:
    crew = str(book.crew.person)
    return m.attempt(
        leak,
        source=source,
        pressure_installing="3 in wc",
        pressure_restored="59.7 psi absolute",
        authorised_by=str(book.supervisor.person),
        air_temperature="-2 C",
        customers="live",
        coating="wrap tape",
        remarks="clamp on the tee",
        written=WRITTEN,
        did=[{"key": "d1", "person": crew}, {"key": "d2", "named": "a helper"}],
        materials=[
            {"key": "m1", "lot": book.lot, "used": "1 roll"},
            {"key": "m2", "lot": ids["expired"], "used": "half a tin"},
            {"key": "m3", "named": "clamp off the truck"},
        ],
        people=[{"key": "p1", "person": crew, "task": "install clamp"}, {"key": "p2", "named": "a helper"}],
    )


def _after_the_first_day(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """A leak that was ended too soon and opened again, with work that is given, waits and goes on."""
    leak = m.leak(
        book, street="Fuller Row", county="Harrow", map_reference="sheet 12, C4", on_federal_land="no", location="kerb"
    )
    at = leak["id"]
    source = m.source(at, protection="unprotected", condition="pitted")
    visit = m.visit(at, paving="wall_to_wall", frost="no", ignited="no", seen_or_heard="yes")
    visit |= {"venting_started": "2026-03-03 08:00", "venting_stopped": "2026-03-03 08:20"}
    visit |= {"likely_to_reach_outside_wall": "no", "significant_migration": "no", "probable_future_hazard": "yes"}
    visit |= {"public_or_property_endangered": "no", "excavation_damage": "no"}
    visit |= {"percent_smys": 12, "class_location": "class_3"}
    first = m.grade(at, grade="1", hazardous="yes")
    lower = m.grade(at, happened="2026-03-03 12:00", grade="2", reason="vented")
    given = m.given(at, person=str(book.crew.person), crew=ids["crew"], by_on="2026-03-06", remarks="side gate")
    again = m.given(at, work="restoration", happened="2026-03-04", named="the pavers")
    attempt = m.attempt(
        at,
        source=source["id"],
        cause_detail="stray current",
        mechanical_joint="no",
        watched_by=str(book.supervisor.person),
        watched_by_named="the engineer on call",
        stopped_by="squeeze_off",
        exposed="2026-03-05 09:00",
        gas_stopped="2026-03-05 09:40",
        fitted="2026-03-05 09:55",
        gas_restored="2026-03-05 10:00",
        surface_ready="yes",
        customers="off",
        customers_off=2,
        pressure_restored="45 psi",
        people=[
            {"key": "p1", "named": "a helper", "observed_by": str(book.supervisor.person)},
            {"key": "p2", "named": "another", "observed_by_named": "the foreman"},
        ],
    )
    present = [{"key": "p1", "person": str(book.crew.person)}, {"key": "p2", "named": "Jo"}]
    briefing = m.briefing(at, present=present, atmosphere="0 %LEL, 20.9 % oxygen")
    briefing |= dict.fromkeys(("rescue_gear", "extinguisher", "ignition_sources_out"), "yes")
    early = m.ending(at, how="no_reading", happened="2026-03-03 18:00", reason="nothing read")
    book.say(leak, source, visit, first, lower, given, again, briefing, attempt, early)
    book.say(
        m.reopened(at, happened="2026-03-04 07:00"),
        m.downgrade(at, lower["id"], reason="readings seen"),
        m.scheduled(at, reason="before the paving"),
        m.settled(at, again["id"], reason="another crew"),
        m.waiting(at, remarks="the town's office"),
        m.goes_on(at, remarks="permit came"),
        m.set_aside(at, attempt["id"], "person_not_on_the_books", row="people.p1"),
        m.set_aside(at, attempt["id"], "no_such_gap"),
    )
    book.say(m.given(ids["troubled"], work="re_evaluation", named="Truck 7", happened="2026-03-05"))
    return {"reopened": at, "lower": lower["id"], "worked": attempt["id"]}


def _troubled_leak(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """In the other area, high up: measures kept as text, a temporary repair, an ending that does not hold."""
    leak = m.leak(book, area=book.other_area, street="MILL  lane", happened="2026-03-04")
    kept = [{"key": "k1", "field": "pressure"}]
    source = m.source(leak["id"], happened="2026-03-04", pressure="line pressure", kept_as_text=kept)
    visit = m.visit(
        leak["id"],
        happened="2026-03-04",
        places=[{"key": "p1", "kind": "bar_hole", "label": "by the kerb"}],
        readings=[{"key": "r1", "place": "p1", "value": "off the scale"}],
        kept_as_text=[{"key": "k1", "field": "readings.r1.value"}],
    )
    attempt = m.attempt(
        leak["id"],
        happened="2026-03-02",
        lasting="temporary",
        pressure_found="as usual",
        authorised_by_named="the engineer on call",
        materials=[{"key": "m1", "lot": ids["second"]}],
        kept_as_text=[{"key": "k1", "field": "pressure_found"}],
    )
    test = m.test_of(
        leak["id"], attempt["id"], happened="2026-03-04", pressure="full", kept_as_text=kept, result="not_tight"
    )
    ending = m.ending(leak["id"], [attempt["id"]], happened="2026-03-04")
    odd = m.grade(leak["id"], happened="2026-03-04", grade="2A", rank=2)
    unknown = m.grade(leak["id"], happened="2026-03-05", grade="C+")
    book.say(leak, source, visit, attempt, test, ending, odd, unknown)
    joined = m.leak(book, street="Quarry Lane")
    end = m.ending(joined["id"], how="joined", joined_to=ids["ended"], reason="the same leak")
    book.say(joined, end)
    return {"troubled": leak["id"], "joined": joined["id"], "temporary": attempt["id"], "ending": ending["id"]}


def _moved(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """Corrections, corrections of corrections, voids, voids of voids, and entries that go to another leak."""
    street = m.corrected(ids["troubled"], ("street", "Quary Lane"), ("reporter_name", "S. Hale"))
    book.say(street, m.corrected(ids["ended"], ("reporter_name", "J. Penrose (Mrs)"), ("outside_numbers.n2", None)))
    book.say(m.corrected(street["id"], ("changes.c1.to", "Quarry Lane"), ("reason", "misspelt")))
    visit = m.visit(ids["joined"], happened="2026-03-05 09:00")
    book.say(visit)
    move = m.corrected(visit["id"], ("leak", ids["troubled"]))
    book.say(move)
    onward = m.corrected(move["id"], ("changes.c1.to", ids["ended"]))
    book.say(onward)
    test = m.test_of(ids["ended"], ids["attempt"], happened="2026-03-05 11:00", result="not_tight")
    book.say(test)
    void = m.void(test["id"])
    book.say(void)
    wrong = m.void(ids["visit"])
    book.say(wrong)
    restored = m.void(wrong["id"])
    book.say(restored)
    return {
        "moved": visit["id"],
        "move": move["id"],
        "onward": onward["id"],
        "void": void["id"],
        "restored": wrong["id"],
    }


def _listed_leak(book: m.Book, ids: dict[str, str]) -> None:
    """From an old list: its own number, a day that is only known as on or before."""
    leak = m.leak(
        book,
        number="1987-114",
        happened="2016-12-31",
        detected_by="listed",
        house_number="",
        happened_known="on_or_before",
    )
    attempt = m.attempt(leak["id"], happened="2016-11-02", materials=[{"key": "m1", "lot": ids["expired"]}])
    book.say(leak, attempt, m.ending(leak["id"], [attempt["id"]], happened="2016-11-02"), m.note(leak["id"]))


def _opened_in_error(book: m.Book) -> None:
    leak, lot = m.leak(book, street="Mill Lane", happened="2025-12-30"), m.new_id()
    received = {"kind": "lot_received", "id": lot, "area": book.area, "item": "sealant", "lot_number": "S-1"}
    book.say(leak, m.grade(leak["id"]), received | {"happened": "2026-01-02"})
    book.say(m.void(leak["id"]), m.void(lot))


def _digs_and_ties(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """A dig that serves two leaks, with all its parts; a dry one; a place; everything that ties."""
    leaks = m.leak(book)
    there = {"called": "by the gate", "location": "back yard", "postal_code": "04417"}
    place = d.place(book, **there, coordinates="41.2 N, 73.1 W")
    other = d.place(book, size="as the main", kept_as_text=[{"key": "k1", "field": "size"}])
    book.say(place | {"material": "steel", "size": "3/4 in", "installed_year": 1968}, other, leaks)
    source = m.source(leaks["id"], place=place["id"])
    dig = d.dig(book, [ids["ended"], leaks["id"]], permit="P-311", location="2 ft from the curb", did=[_helper()])
    owed, curb = d.owed(dig["id"]), d.owed(dig["id"], what="curb")
    pipe = {"pipe": "the old main", "searched": "4 ft", "cut_out": "yes", "corrosion_inside": "none"}
    pipe |= {"wall_left": "as new", "kept_as_text": [{"key": "k1", "field": "wall_left"}], "joint_sealed": "no"}
    pipe |= {"anode_installed": "yes", "potential_before": "-0.62 V", "potential_after": "-1.05 V"}
    pipe |= {"tracer_wire": "whole", "part_kept": "L-31", "remarks": "wet", "source": source["id"]}
    book.say(
        source,
        dig,
        d.found(dig["id"], source=source["id"], soil="clay", water="wet", remarks="roots"),
        d.exposed(dig["id"], **pipe),
        d.exposed(dig["id"], wall_left="0.05 in", nominal_wall="0.113 in"),
        d.backfilled(dig["id"], compaction="by plate", remarks="frost"),
        owed,
        curb,
        d.restored(dig["id"], owed=owed["id"], what="asphalt"),
        d.retired(place["id"]),
        d.number(ids["ended"]),
        d.number(dig["id"], what="permit", number="P-312"),
        d.linked(leaks["id"], ids["ended"]),
        d.made_one(book.lot, ids["second"]),
        d.streets(book.area, ("Quarry Lane", "Harrowsedge"), ("Mill Lane", "Harrowsedge")),
        d.attached(ids["ended"], original="0" * 64, taken="2026:03:05 09:40:00", caption="the tag"),
        whole(ids["ended"], from_entry=ids["attempt"]),
        figure(leaks["id"], from_entry=ids["attempt"]),
    )
    told = {"component": "coupling", "size": "2 in", "pressure": "60 psi", "installed_decade": "1980s"}
    told |= {"coating": "none", "protection": "protected", "condition": "sound", "location": "under the walk"}
    seen = {"place": other["id"], "seen_in_dig": dig["id"], "remarks": "the record was of the house next door"}
    book.say(
        m.otherwise(leaks["id"], source["id"], **told, **seen, installed_year=1984),
        m.otherwise(leaks["id"], source["id"], happened="2026-03-05", size="as the main")
        | {"kept_as_text": [{"key": "k1", "field": "size"}]},
    )
    far = [{"key": "t1", "from_what": "pole 12", "distance": "a stone's throw"}]
    dry = d.dig(book, [leaks["id"]], ticket="", ticket_from="", happened="2026-03-04", ticket_until="2026-03-03")
    dry |= {"ties": far, "kept_as_text": [{"key": "k1", "field": "ties.t1.distance"}]}
    deep = {"depth": "waist deep", "kept_as_text": [{"key": "k1", "field": "depth"}]}
    wrong = d.dig(book, [ids["joined"]])
    book.say(dry, d.found(dry["id"], found="nothing", source=source["id"], happened="2026-03-04", **deep), wrong)
    book.say(m.void(wrong["id"]), d.backfilled(wrong["id"], happened="2026-03-04"), m.note(wrong["id"]))
    book.say(m.corrected(dig["id"], ("leaks.l2", None)))
    streets = {
        "street": d.street_id("Quarry Lane", "Harrowsedge"),
        "other_street": d.street_id("Fuller Row", "Harrowsedge"),
    }
    ids = {"dig": dig["id"], "dry": dry["id"], "place": place["id"], "served": leaks["id"], "main": source["id"]}
    return ids | {name: str(id) for name, id in streets.items()}


def _helper() -> dict[str, str]:
    return {"key": "d1", "named": "a helper"}


def _to_another_area(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """A leak that goes there and back, one that goes nowhere, and one of each of the others that may go."""
    there, leak = book.other_area, m.leak(book, street="Fuller Row")
    book.say(leak, m.visit(leak["id"]))
    move, back = m.moved(leak["id"], there), m.moved(leak["id"], book.area, happened="2026-03-05 09:30")
    book.say(back, m.moved(ids["joined"], book.area))
    book.say(move, m.note(leak["id"], happened="2026-03-04"))
    book.say(m.void(back["id"]), m.corrected(move["id"], ("happened", "2026-03-04")))
    others = [d.dig(book, [leak["id"]]), d.place(book), s.shelf(book), s.received(book), c.call(book)]
    others += [m.crew(book, name="Truck 9"), m.instrument(book, mark="G-30")]
    book.say(*others, *(m.moved(each["id"], there) for each in others))
    return {"elsewhere": leak["id"]}


def _beside(book: m.Book) -> None:
    """What is kept and is no entry yet: a call that was refused, one that waits."""
    for call, because in ((m.review(m.new_id(), m.new_id()), WaitsFor), (_area(), Refused)):
        try:
            book.say(call, by=book.crew if because is Refused else None)
        except because:
            continue


def _area() -> dict[str, Any]:
    return {"kind": "area_opened", "id": m.new_id(), "name": "Oxmoor", "code": "OX", "zone": "America/New_York"} | {
        "happened": "2026-01-02"
    }
