"""Histories by chance over every kind of entry, always the same for the same seed: made from how each kind is declared,
so that a new kind is among them by itself.

Every moment is there once, no field is put right twice and both areas have one clock: what hangs on the order of
arrival by decision is left out.
"""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from repairlog.entries.fields import EntryKind, Field, Rows
from repairlog.entries.kinds import DID, KEPT_AS_TEXT, KINDS, RIGHTING
from repairlog.intake import NotUnderstood, WaitsFor
from tests.makers import book as m

Raw = dict[str, Any]

FROM = datetime(2026, 3, 1, tzinfo=UTC)
MINUTES = 4 * 24 * 60
DAYS = tuple(f"2026-0{month}-{day:02d}" for month in (1, 2) for day in range(1, 29))
MEASURES = {
    "pressure": ("45 psi", "7 in wc", "2.5 bar"),
    "hole": ("1/16 in", "5 mm"),
    "distance": ("6 ft", "2 m"),
    "elevation": ("5280 ft", "12 m"),
    "temperature": ("57 F", "-2 C"),
    "duration": ("15 min", "1 h 30 min"),
    "area": ("40 sq ft", "12 sq ft"),
    "gas": ("60 %LEL", "2.5 %gas", "0 %gas"),
}
KNOWN = {
    "rulebook": ("saltmarsh-practice",),
    "digest": (m.PRACTICE,),
    "rule": ("repair-2", "permanent", "act-1"),
    "calendar": ("US-NY", "GB"),
    "zone": ("America/New_York", "America/Denver"),
    "role": ("crew", "supervisor", "manager", "storekeeper"),
    "task": ("install clamp", "squeeze off"),
    "grade": ("1", "2", "3", "C+"),
    "street": ("Quarry Lane", "QUARRY  lane", "Mill Lane"),
    "other_street": ("Quarry Ln", "Mill Lane"),
    "town": ("Harrowsedge",),
    "other_town": ("Harrowsedge",),
    "amount": ("3 each", "2", "some"),
    "received": ("24 each", "40"),
    "used": ("1", "2 each"),
    "gap": ("expired_lot_used", "person_not_on_the_books", "repair_not_accepted"),
    "place": ("p1", "p2"),
    "media_type": ("text/plain",),
    "name": ("Truck 4", "T. Birkett", "bay 2"),
}
"""What stands in a field of that name."""

OF_KIND = {
    "attempt": ("repair_attempted",),
    "grade_set": ("grade_set",),
    "given": ("work_given",),
    "owed": ("restoration_owed",),
}
"""What a field of that name speaks about; any other entry speaks about any."""

LEFT_OUT = {"operator_opened", "area_opened", *RIGHTING}
"""There is one operator; areas are there before, since what they are set to is sealed with what arrives; and what puts
right is made of what is there."""

NO_SUCH = {"number", "happened_known", "code"}
"""Left as the door gives them."""

KINDS_TOLD = [kind for name, kind in KINDS.items() if name not in LEFT_OUT]
OFTEN = ("visit", "grade_set", "repair_attempted", "tested", "repair_reviewed", "leak_ended", "leak_reopened")
OFTEN += ("work_given", "lot_received", "call_sent", "call_on_site", "call_outcome", "dig_opened", "qualified")
"""What a story is made of has more to say than the rest."""


@dataclass
class History:
    """What was told so far. `told`: every entry, in the order of telling, each as it was recorded. `moments`: those
    that are free yet; `righted`: what was put right already; `refused`: entries that could not be read."""

    book: m.Book
    chance: random.Random
    told: list[Raw] = field(default_factory=list)
    subjects: defaultdict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    moments: list[str] = field(default_factory=list)
    righted: set[tuple[str, str]] = field(default_factory=set)
    refused: list[Raw] = field(default_factory=list)


def begun(book: m.Book, *, seed: int) -> History:
    """One subject of each kind, with two leaks and two calls."""
    history = History(book, random.Random(seed))
    minutes = range(0, MINUTES, 7)
    history.moments = [f"{FROM + timedelta(minutes=minute):%Y-%m-%d %H:%M}" for minute in minutes] + list(DAYS)
    history.chance.shuffle(history.moments)
    history.subjects |= {"area": [book.area], "lot": [book.lot]}
    history.subjects["person"] = [str(book.crew.person), str(book.officer.person)]
    beside = {"name": "Cold Fell", "code": "CF", "zone": "America/New_York", "happened": "2025-01-02"}
    tell(history, {"kind": "area_opened", "id": m.new_id()} | beside)  # what is moved there keeps its clock
    opening = [kind for kind in KINDS_TOLD if kind.opens]
    opening += [kind for kind in opening if kind.opens in ("leak", "call", "lot")]
    for kind in sorted(opening, key=lambda kind: ("area", "person", "leak").index(kind.folds_in or "area")):
        tell(history, new_entry(history, kind))
    return history


def go_on(history: History) -> None:
    """One entry more: one in five puts an earlier one right."""
    chance = history.chance
    if chance.random() < 0.2:
        entry = _righting(history)
        if entry is not None:
            tell(history, entry)
        return
    tell(history, new_kind(history))


def new_kind(history: History, *, opens: bool = True) -> Raw:
    """An entry of any kind; without `opens` of one that says something of what is there already."""
    often = [KINDS[name] for name in OFTEN]
    kinds = often if history.chance.random() < 0.5 else KINDS_TOLD
    return new_entry(history, history.chance.choice([kind for kind in kinds if opens or not kind.opens]))


def tell(history: History, entry: Raw) -> bool:
    """Record it; what cannot be read as things stand is left out. Whether it could."""
    try:
        history.book.say(entry)
    except (NotUnderstood, WaitsFor):
        history.refused.append(entry)
        return False
    history.told.append(entry)
    if opens := KINDS[entry["kind"]].opens:
        history.subjects[opens].append(entry["id"])
    return True


def new_entry(history: History, kind: EntryKind) -> Raw:
    """An entry of that kind: what it must say, and about half of what it may."""
    said = {each.name: value_of(history, each, kind) for each in kind.fields if _is_said(history, each)}
    rows = {each.name: _rows(history, each, kind) for each in kind.rows if each not in (DID, KEPT_AS_TEXT)}
    filled = {name: value for name, value in said.items() if value is not None}
    return {"kind": kind.name, "id": m.new_id()} | filled | {name: every for name, every in rows.items() if every}


def _is_said(history: History, each: Field) -> bool:
    return each.required or (each.name not in NO_SUCH and history.chance.random() < 0.5)


def _rows(history: History, rows: Rows, kind: EntryKind) -> list[Raw]:
    made: list[Raw] = []
    for place in range(1, history.chance.choice((0, 1, 2, 3)) + 1):
        said = {each.name: value_of(history, each, kind) for each in rows.fields if _is_said(history, each)}
        if any(value is None for value in said.values()):
            continue
        for name in rows.needs_one_of[:1]:
            said.setdefault(name, value_of(history, next(each for each in rows.fields if each.name == name), kind))
        made.append({"key": f"{rows.name[0]}{place}"} | {name: v for name, v in said.items() if v is not None})
    return made


def value_of(history: History, each: Field, kind: EntryKind) -> str | None:
    """What may stand in that field; None where there is nothing yet that it might name."""
    chance = history.chance
    if each.name == "happened":
        return history.moments.pop()
    if each.kind == "ref":
        return _subject(history, each, kind)
    if each.kind == "entry":
        of = OF_KIND.get(each.name)
        known = [e["id"] for e in history.told if (of is None and e["kind"] not in RIGHTING) or e["kind"] in (of or ())]
        return chance.choice(known) if known else None
    if each.kind == "hole":
        visits = [e for e in history.told if e["kind"] == "visit"]
        holes = [f"{e['id']}/{row['key']}" for e in visits for row in e.get("places", ()) if row["kind"] == "bar_hole"]
        return chance.choice(holes) if holes else None
    return plain_value(each, chance)


def _subject(history: History, each: Field, kind: EntryKind) -> str | None:
    kinds = [each.refers_to] if each.refers_to else list(each.among or history.subjects)
    if kind.name == "made_one":
        kinds = ["lot", "person"]
    ids = [id for name in kinds for id in history.subjects[name]]
    return history.chance.choice(ids) if ids else None


def plain_value(each: Field, chance: random.Random) -> str:
    """What may stand in a field that names nothing."""
    if each.name in KNOWN and each.kind in ("text", "digest", "code"):
        return chance.choice(KNOWN[each.name])
    values: dict[str, Callable[[], str]] = {
        "code": lambda: chance.choice(each.codes),
        "measure": lambda: chance.choice(MEASURES[each.quantity]),
        "when": lambda: chance.choice(("2026-03-02", "2026-03-03 08:30", "2026-03-04 23:50")),
        "day": lambda: chance.choice(("2026-01-15", "2026-03-02", "2026-03-04", "2026-12-31")),
        "whole": lambda: str(chance.randint(each.least, min(each.most, each.least + 40))),
        "digest": lambda: f"{chance.randint(0, 3):064x}",
        "text": lambda: chance.choice(("by the wall", "2"))[: each.longest],
    }
    return values[each.kind]()


def _righting(history: History) -> Raw | None:
    """A correction of a field of any entry, or a void; of each only one. None where chance hit what was put right."""
    chance = history.chance
    target = chance.choice(history.told)
    if chance.random() < 0.4:
        return m.void(target["id"]) if _first(history, target, "") else None
    if target["kind"] == "corrected":
        return _corrected_again(history, target)
    if target["kind"] == "void":
        return None
    kind = KINDS[target["kind"]]
    every = [each for each in kind.fields if each.name not in NO_SUCH]
    if kind.name == "area_opened":
        return None
    each = chance.choice(every)
    to = value_of(history, each, kind)
    if to is None or not _first(history, target, each.name):
        return None
    takes_away = not each.required and each.name in target and chance.random() < 0.3
    return m.corrected(target["id"], (each.name, None if takes_away else to))


def _corrected_again(history: History, target: Raw) -> Raw | None:
    (change,) = target["changes"]
    root = next(e for e in history.told if e["id"] == target["entry"])
    each = next((each for each in KINDS[root["kind"]].fields if each.name == change["field"]), None)
    if each is None or not _first(history, target, "changes"):
        return None
    to = value_of(history, each, KINDS[root["kind"]])
    return m.corrected(target["id"], (f"changes.{change['key']}.to", to)) if to is not None else None


def _first(history: History, target: Raw, path: str) -> bool:
    if (target["id"], path) in history.righted:
        return False
    history.righted.add((target["id"], path))
    return True
