"""The companies, people and instruments of the full book: every kind of entry about them, with every field."""

from __future__ import annotations

from typing import Any

from tests.makers import book as m
from tests.makers import companies
from tests.makers import digs as d


def people_and_instruments(book: m.Book, ids: dict[str, str]) -> dict[str, str]:
    """Say them; ids by name."""
    crew, officer = str(book.crew.person), str(book.officer.person)
    guest, meter, old = (
        m.new_id(),
        m.instrument(book, mark="G-4", maker="Ansty", model="L2", serial_number="771"),
        m.instrument(book),
    )
    evaluated = {"evaluator": officer, "company": "Dale Pipe Co", "document": "file 12"}
    period = {"period_from_on": "2025-01-01", "period_until_on": "2025-12-31", "until_on": "2026-06-30"}
    points = [_point("p1", "methane", "50 %LEL", "47 %LEL"), _point("p2", "carbon_monoxide", "35 ppm CO", "31 ppm CO")]
    points += [_point("p3", "methane", "100 ppm-m", "96 ppm-m"), _point("p4", "methane", "50 %LEL", "off the scale")]
    checks = [_check(meter["id"], "35 ppm CO", "34 ppm CO"), _check(meter["id"], "100 ppm-m", "98 ppm-m")]
    checks += [_check(meter["id"], "50 %LEL", "off the scale", result="not_good") | _kept("read")]
    required = rules(book)
    qualified = m.qualified(crew, **evaluated)
    hired, by_mistake = _companies(book)
    book.say(
        m.cut_over(book.other_area, reason="the new book begins"),
        *required,
        m.typing_time(book.other_area, reason="our manual", typed_from="paper"),
        m.own_acceptance(book.other_area),
        {"kind": "person_added", "id": guest, "name": "K. Ames", "happened": "2026-01-05"},
        m.role_given(guest, "inspector", area=book.area, **period),
        m.role_given(guest, "crew", company="Dale Pipe Co"),
        {"kind": "role_ended", "id": m.new_id(), "subject": guest, "happened": "2026-03-04", "role": "crew"}
        | {"area": book.area, "until_on": "2026-03-04"},
        {"kind": "person_left", "id": m.new_id(), "subject": guest, "happened": "2026-03-04"}
        | {"until_on": "2026-07-31", "reason": "the inspection is over"},
        qualified,
        m.qualified(crew, task="squeeze off", evaluator_named="the maker's trainer"),
        m.unqualified(crew, task="squeeze off"),
        m.crew_changed(ids["crew"], company="Dale Pipe Co")
        | {"joined": [{"key": "j1", "person": guest, "from_on": "2026-02-02"}]}
        | {"left": [{"key": "l1", "person": crew, "until_on": "2026-02-01"}]},
        meter,
        old,
        m.calibrated(meter["id"], by_whom="Weir Lab", certificate_number="C-1", remarks="sensor new", points=points)
        | _kept("points.p4.found"),
        {"kind": "instrument_checked", "id": m.new_id(), "subject": meter["id"], "happened": "2026-03-03 06:40"}
        | {"cylinder": book.lot, "cylinder_named": "50 %LEL", "expected": "50 %LEL", "read": "49 %LEL"}
        | {"result": "good", "remarks": "cold morning"},
        *checks,
        {"kind": "instrument_retired", "id": m.new_id(), "subject": old["id"], "happened": "2026-02-27"}
        | {"reason": "sensor worn"},
    )
    theirs = m.person("H. Dunstan", company="dale pipe company")
    leak = next(str(each["id"]) for each in required if each["kind"] == "leak_opened")
    did = {"did": [{"key": "d1", "person": theirs["id"]}]}
    book.say(theirs, m.note(leak) | did | {"happened": "2026-03-04"})
    found = {
        "company": hired,
        "no company": by_mistake,
        "meter": meter["id"],
        "guest": guest,
        "crew_leader": crew,
        "area": book.area,
        "operator": book.operator,
    }
    return found | {"sure": required[2]["id"], "evaluated": qualified["id"]}


def _companies(book: m.Book) -> tuple[str, str]:
    """A contractor that left and came back, known by a number, with a note; and one put on the books in error."""
    hired = companies.company(
        from_on="2025-03-01",
        until_on="2027-02-28",
        workplace="yard at 3 Weir Street",
        remarks="two crews",
        **companies.also("Dale Pipe Company", "dale  pipe co"),
    )
    wrong = companies.company("Dale Pipes", what="other")
    book.say(
        hired,
        companies.left(hired["id"], reason="the main is done"),
        companies.back(hired["id"], until_on="2026-11-30", remarks="agreed by letter"),
        wrong,
        m.void(wrong["id"]),
        d.number(hired["id"], what="licence", number="L-4471"),
        m.note(hired["id"]),
    )
    return hired["id"], wrong["id"]


def rules(book: m.Book) -> list[dict[str, Any]]:
    """Both areas adopt a rulebook, one of them a proposal later on; a rule is confirmed twice, once in error. A
    leak has a grade that neither knows, and a dig beside it owes a restoration without a day."""
    proposal = {"rulebook": "saltmarsh-proposal", "digest": m.PROPOSAL, "although_proposed": "yes"}
    twice = m.confirmed(book.area)
    leak = m.leak(book, street="Fuller Row", happened="2026-03-02")
    dig = d.dig(book, [leak["id"]])
    no_day = {name: value for name, value in d.owed(dig["id"]).items() if name != "by_on"}
    return [
        m.working_days(book.area, reason="works on the city's own holidays"),
        m.adopted(book.area, reason="manual, revision 7"),
        m.confirmed(book.area, remark="in other words, the same"),
        twice,
        m.void(twice["id"]),
        m.adopted(book.other_area),
        m.adopted(book.area, from_on="2030-01-01", **proposal),
        leak,
        m.grade(leak["id"], grade="odd"),
        dig,
        no_day,
    ]


def _point(key: str, gas: str, expected: str, found: str) -> dict[str, Any]:
    return {"key": key, "gas": gas, "expected": expected, "found": found, "left_at": expected}


def _check(instrument: str, expected: str, read: str, result: str = "good") -> dict[str, Any]:
    return {"kind": "instrument_checked", "id": m.new_id(), "subject": instrument, "happened": "2026-03-03 06:50"} | {
        "cylinder_named": expected,
        "expected": expected,
        "read": read,
        "result": result,
    }


def _kept(field: str) -> dict[str, Any]:
    return {"kept_as_text": [{"key": "k1", "field": field}]}
