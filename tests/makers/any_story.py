"""Stories by chance, always the same for the same seed: two leaks, what they rest on, and every way of putting entries
right."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from repairlog.intake import NotUnderstood
from tests.makers import book as m

Raw = dict[str, Any]
DAYS = ("2026-03-02", "2026-03-03 08:30", "2026-03-04", "2026-03-04 23:50", "2026-03-05 09:15")
STREETS = ("Quarry Lane", "QUARRY  lane", "Mill Lane", "Fuller Row")


@dataclass
class Story:
    """What was told so far. `told`: every entry that was recorded, by kind; `refused`: calls that were not."""

    book: m.Book
    chance: random.Random
    leaks: list[str] = field(default_factory=list)
    lots: list[str] = field(default_factory=list)
    meter: str = ""
    told: list[Raw] = field(default_factory=list)
    refused: int = 0


def begun(book: m.Book, *, seed: int) -> Story:
    """Two leaks in two areas, a third that entries are moved to, and two lots, one of which expires in between."""
    story = Story(book, random.Random(seed))
    leaks = [m.leak(book), m.leak(book, area=book.other_area, street="Mill Lane"), m.leak(book, happened="2026-03-04")]
    day = {"happened": "2026-01-02", "expires_on": "2026-03-03"}
    lot = {"kind": "lot_received", "id": m.new_id(), "area": book.area, "item": "primer", "lot_number": "P-9"} | day
    meter = m.instrument(book)
    tell(story, [*leaks, lot, meter])
    story.meter = meter["id"]
    story.leaks, story.lots = [leak["id"] for leak in leaks], [book.lot, lot["id"]]
    return story


def tell(story: Story, call: list[Raw]) -> None:
    """Record one call; what cannot be read as things stand is only counted."""
    try:
        story.book.say(*call)
    except NotUnderstood:
        story.refused += 1
    else:
        story.told += call


def go_on(story: Story) -> None:
    """One call more, of one to three entries, the later of which may put an earlier one right."""
    call: list[Raw] = []
    for _ in range(story.chance.choice((1, 1, 2, 3))):
        call.append(story.chance.choice(NEXT)(story, [*story.told, *call]))
    tell(story, call)


def _of_kind(told: list[Raw], *kinds: str) -> list[Raw]:
    return [entry for entry in told if entry["kind"] in kinds]


def _leak(story: Story, _told: list[Raw]) -> Raw:
    return m.leak(story.book, street=story.chance.choice(STREETS), happened=story.chance.choice(DAYS))


def _on_a_leak(story: Story, told: list[Raw]) -> Raw:
    make: Callable[..., Raw] = story.chance.choice((m.visit, m.grade, m.source))
    return make(story.chance.choice(story.leaks), happened=story.chance.choice(DAYS))


def _rested_on(story: Story, told: list[Raw]) -> Raw:
    """What changes what leaks rest on: a person, an instrument, an area."""
    chance, book = story.chance, story.book
    day, until = chance.choice(DAYS), chance.choice(("2026-03-03", "2026-03-04", "2027-01-01"))
    crew = str(book.crew.person)
    made: list[Raw] = [
        m.qualified(crew, happened=day, until_on=until),
        m.unqualified(crew, happened=day),
        m.calibrated(story.meter, happened=day, next_due_on=until),
        m.cut_over(chance.choice((book.area, book.other_area)), happened=day, cut_over_on=until),
        m.role_given(crew, chance.choice(("manager", "crew")), happened=day),
        *_required(story, day),
    ]
    return chance.choice(made)


def _required(story: Story, day: str) -> list[Raw]:
    """What changes what leaks owe."""
    chance, area = story.chance, story.chance.choice((story.book.area, story.book.other_area))
    proposal = {"rulebook": "saltmarsh-proposal", "digest": m.PROPOSAL, "although_proposed": "yes"}
    return [
        m.adopted(area, happened=day, from_on=chance.choice(("2020-01-01", *DAYS))),
        m.adopted(area, happened=day, from_on=chance.choice(DAYS), **proposal),
        m.confirmed(area, chance.choice(("repair-2", "permanent")), happened=day),
        m.working_days(area, happened=day, calendar=chance.choice(("US-NY", "GB"))),
    ]


def _seen_with(story: Story, told: list[Raw]) -> Raw:
    used = story.chance.choice(({"instrument_used": story.meter}, {"instrument": "G-9"}, {}))
    return m.visit(story.chance.choice(story.leaks), happened=story.chance.choice(DAYS), **used)


def _moved(story: Story, _told: list[Raw]) -> Raw:
    to = story.chance.choice((story.book.area, story.book.other_area))
    return m.moved(story.chance.choice([*story.leaks, *story.lots]), to, happened=story.chance.choice(DAYS))


def _attempt(story: Story, told: list[Raw]) -> Raw:
    chance = story.chance
    material = [{"key": "m1", "lot": chance.choice(story.lots)}]
    lasting = chance.choice(("permanent", "permanent", "temporary"))
    raw = m.attempt(chance.choice(story.leaks), happened=chance.choice(DAYS), lasting=lasting, materials=material)
    if chance.random() < 0.5:
        who = chance.choice((story.book.crew, story.book.officer))
        raw["people"] = [{"key": "p1", "person": str(who.person), "task": "install clamp"}]
    sources = _of_kind(told, "source_added")
    return raw | ({"source": chance.choice(sources)["id"]} if sources and chance.random() < 0.6 else {})


def _about_an_attempt(story: Story, told: list[Raw]) -> Raw:
    attempts = _of_kind(told, "repair_attempted")
    if not attempts:
        return _attempt(story, told)
    chance, attempt = story.chance, story.chance.choice(attempts)
    leak, happened = chance.choice((attempt["leak"], chance.choice(story.leaks))), chance.choice(DAYS)
    if chance.random() < 0.3:
        return m.ending(leak, [attempt["id"]], happened=happened)
    if chance.random() < 0.5:
        return m.review(leak, attempt["id"], happened=happened)
    return m.test_of(leak, attempt["id"], happened=happened, result=chance.choice(("tight", "not_tight")))


def _void(story: Story, told: list[Raw]) -> Raw:
    return m.void(story.chance.choice(told)["id"])


def _corrected(story: Story, told: list[Raw]) -> Raw:
    """A field of any entry; of a correction, what it puts in, or one of its rows."""
    chance = story.chance
    righted = _of_kind(told, "corrected")
    if righted and chance.random() < 0.4:
        target = chance.choice(righted)
        change = chance.choice(target["changes"])
        if chance.random() < 0.2:
            return m.corrected(target["id"], (f"changes.{change['key']}", None))
        return m.corrected(target["id"], (f"changes.{change['key']}.to", _value(story, change["field"], told)))
    target = chance.choice([entry for entry in told if entry["kind"] not in ("corrected", "void")])
    fields = [name for name in FIELDS if name in target or name.split(".")[0] in target or name.startswith("did.")]
    chosen = chance.sample(fields, k=min(len(fields), chance.choice((1, 1, 2))))
    return m.corrected(target["id"], *((name, _value(story, name, told)) for name in chosen))


def _value(story: Story, path: str, told: list[Raw]) -> str:
    while path.startswith("changes."):  # a correction of a correction: the value is one of what that changes
        corrected = next(e for e in told for c in e.get("changes", ()) if c["field"] == path)
        righted = next(e for e in told if e["id"] == corrected["entry"])
        path = next(c["field"] for c in righted["changes"] if c["key"] == path.split(".")[1])
    return str(FIELDS[path](story, told))


FIELDS: dict[str, Callable[[Story, list[Raw]], str]] = {
    "leak": lambda story, _told: story.chance.choice(story.leaks),
    "happened": lambda story, _told: story.chance.choice(DAYS),
    "to_area": lambda story, _told: story.chance.choice((story.book.area, story.book.other_area)),
    "area": lambda story, _told: story.chance.choice((story.book.area, story.book.other_area)),
    "street": lambda story, _told: story.chance.choice(STREETS),
    "grade": lambda story, _told: story.chance.choice(("1", "2", "3", "C+")),
    "lasting": lambda story, _told: story.chance.choice(("permanent", "temporary")),
    "result": lambda story, _told: story.chance.choice(("tight", "not_tight")),
    "attempt": lambda story, told: story.chance.choice(_of_kind(told, "repair_attempted"))["id"],
    "attempts.a1.attempt": lambda story, told: story.chance.choice(_of_kind(told, "repair_attempted"))["id"],
    "people.p1.person": lambda story, _told: str(story.chance.choice((story.book.crew, story.book.officer)).person),
    "instrument_used": lambda story, _told: story.meter,
    "until_on": lambda story, _told: story.chance.choice(("2026-03-03", "2026-03-05")),
    "next_due_on": lambda story, _told: story.chance.choice(("2026-03-03", "2026-03-05")),
    "cut_over_on": lambda story, _told: story.chance.choice(("2026-03-03", "2026-03-05")),
    "materials.m1.lot": lambda story, _told: story.chance.choice(story.lots),
    "expires_on": lambda story, _told: story.chance.choice(("2026-03-02", "2026-03-04", "2026-12-31")),
    "did.d1.person": lambda story, _told: str(story.chance.choice((story.book.crew, story.book.officer)).person),
}
"""A valid value for each field that is corrected, by its path."""

NEXT = (
    _leak,
    _moved,
    _rested_on,
    _rested_on,
    _seen_with,
    _on_a_leak,
    _on_a_leak,
    _attempt,
    _attempt,
    _about_an_attempt,
    _about_an_attempt,
    _corrected,
    _corrected,
    _corrected,
    _corrected,
    _void,
    _void,
)
