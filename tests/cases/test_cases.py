"""Sentence cases: what a rulebook asks, as a person of the trade writes it down, held against what is worked out.

A case is a table `[[case]]` of a file beside this one: `says`, `rulebook`, `given`, `then`, `source`. `given` is a list
of `reported DAY`, `found DAY`, `graded CODE on DAY [by CRITERION]`, `repaired DAY`, `repaired for now DAY`,
`looked at DAY`, `holds CODE`, `zone NAME`; of readings `PLACE[, OWNER]: READING`; of `said CODE`, `denied CODE`,
`extent MEASURE`, `distance MEASURE`, `grade given CODE`; `RULE counted from DAY`, of a round, a report, a time of
keeping or another rule with one interval; and `RULE as written`, of any rule. A day may have an hour:
`2025-01-01T10:00`. `then` is everything that is owed and has no day yet, `TASK by DAY`, `TASK from DAY to DAY`, each
`, proposed` where its text was not read, `no figure for TASK`; where there are readings, `grade CODE by CRITERION`, or
`no grade`; of a rule that is counted `RULE by DAY`, or `RULE not in force`; of one as written `RULE: SENTENCE`, as it
is printed.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from repairlog.rulebooks import shipped_shelf
from repairlog.trade.due import Graded, Item, Life, Look, When, owed
from repairlog.trade.grading import Found, Spot, called_for, grader, reading_of
from repairlog.trade.intervals import count, count_from, read_interval
from repairlog.trade.rulebook import OWNERS, PLACES, Rulebook, asks_confirmation, in_force_on, rule_named, rules
from repairlog.units import read
from repairlog.words.rulebooks.said import said

CASES = [
    (file.stem, case)
    for file in sorted(Path(__file__).parent.glob("*.toml"))
    for case in tomllib.loads(file.read_text())["case"]
]
SHELF = shipped_shelf().by_id
BASIS = Decimal("5.0")


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What a case gives: a leak's life, and what was found at it."""

    life: Life
    found: Found
    read: bool = False
    counted: tuple[tuple[str, When], ...] = ()
    written: tuple[str, ...] = ()


def given(lines: list[str], rulebook: Rulebook) -> Given:
    """What the lines of a case say; ValueError for a line that is none."""
    zone = next((ZoneInfo(line.removeprefix("zone ")) for line in lines if line.startswith("zone ")), ZoneInfo("UTC"))
    told = Given(life=Life(zone=zone), found=Found())
    for line in lines:
        told = _with(line, told, rulebook)
    return told


def _with(line: str, told: Given, rulebook: Rulebook) -> Given:
    life, found = told.life, told.found
    match line.split():
        case ["reported", day]:
            return replace(told, life=replace(life, reported=when(day, life)))
        case ["found", day]:
            return replace(told, life=replace(life, found=when(day, life)))
        case ["graded", code, "on", day, *by]:
            ranks = {grade.code: grade.rank for grade in rulebook.grades}
            graded = Graded(code=code, since=when(day, life), criterion=" ".join(by[1:]), rank=ranks[code])
            return replace(told, life=replace(life, grades=(*life.grades, graded)))
        case ["repaired", "for", "now", day]:
            return replace(told, life=replace(life, temporary=(*life.temporary, when(day, life))))
        case ["repaired", day]:
            return replace(told, life=replace(life, repaired=when(day, life), made_safe=(when(day, life),)))
        case ["looked", "at", day]:
            return replace(told, life=replace(life, looks=(*life.looks, Look(when=when(day, life), gas=True))))
        case ["holds", code]:
            return replace(told, life=replace(life, holds=life.holds | {code}))
        case [rule, "counted", "from", day]:
            return replace(told, counted=(*told.counted, (rule, when(day, life))))
        case [rule, "as", "written"]:
            return replace(told, written=(*told.written, rule))
        case ["zone", _]:
            return told
        case _:
            return replace(told, found=_found(line, found), read=True)


def _found(line: str, found: Found) -> Found:
    where, colon, text = line.partition(": ")
    place, _, owner = where.partition(", ")
    if colon and place in PLACES and owner in ("", *OWNERS):
        spot = Spot(counts_as=frozenset({place}), owner=owner)
        key = str(len(found.readings))
        one = reading_of(read(text, "gas"), key=key, spot=spot, lel_basis=BASIS)
        return replace(found, readings=(*found.readings, one), spots=(*found.spots, spot))
    what, _, rest = line.partition(" ")
    match what:
        case "said":
            return replace(found, said=found.said | {rest})
        case "denied":
            return replace(found, answers={**found.answers, rest: False})
        case "extent":
            return replace(found, extent=read(rest, "area"))
        case "grade":
            return replace(found, grade=rest.removeprefix("given "))
    raise ValueError(f"no line of a case: {line!r}")


def when(text: str, life: Life) -> When:
    if "T" not in text:
        return When(on=date.fromisoformat(text))
    at = datetime.fromisoformat(text).replace(tzinfo=life.zone)
    return When(on=at.date(), at=at)


def then(told: Given, rulebook: Rulebook) -> list[str]:
    """Everything that is owed, without a figure, or called for, a line each."""
    asked = owed(told.life, rulebook)
    lines = [line_of(item, told.life) for item in asked.items if not item.settled_by]
    lines += [f"no figure for {missing.task}" for missing in asked.missing]
    if told.read:
        called = called_for(grader(rulebook), told.found)
        lines.append(f"grade {called.grade.code} by {called.by.criterion.id}" if called.grade else "no grade")
    lines += [counted_line(id, since, rulebook=rulebook, life=told.life) for id, since in told.counted]
    lines += [f"{id}: {said(rule_named(rulebook, id))}" for id in told.written]
    return sorted(set(lines))


def counted_line(id: str, since: When, *, rulebook: Rulebook, life: Life) -> str:
    """When the interval of that rule is over, counted from that day or moment."""
    rule = rule_named(rulebook, id)
    if not in_force_on(rule.cited, since.on):
        return f"{id} not in force"
    interval = read_interval(getattr(rule, "within", "") or rule.keep)
    counted = count_from(interval, since.at, zone=life.zone) if since.at else count(interval, since.on)
    due = counted.due_at.astimezone(life.zone).strftime("%Y-%m-%dT%H:%M") if counted.due_at else counted.due_on
    return f"{id} by {due}" + (", proposed" if asks_confirmation(rule) else "")


def line_of(item: Item, life: Life) -> str:
    due = item.due_at.astimezone(life.zone).strftime("%Y-%m-%dT%H:%M") if item.due_at else item.due_on.isoformat()
    span = f"from {item.not_before} to {due}" if item.not_before else f"by {due}"
    return f"{item.task} {span}" + ("" if item.firm else ", proposed")


@pytest.mark.parametrize("case", [case for _, case in CASES], ids=[case["says"][:80] for _, case in CASES])
def test_a_rulebook_asks_what_a_sentence_says(case):
    assert set(case) == {"says", "rulebook", "given", "then", "source"}
    rulebook = SHELF[case["rulebook"]].rulebook
    assert then(given(case["given"], rulebook), rulebook) == sorted(case["then"])


def test_every_rulebook_has_at_least_five_cases():
    counted = {id: sum(case["rulebook"] == id for _, case in CASES) for id in SHELF}
    assert {id: count for id, count in counted.items() if count < 5} == {}


def test_every_kind_of_rule_that_is_shipped_has_a_case():
    """Grades, criteria, dues and figures that nobody gives are in the cases of leaks; the others are named by id."""
    named = {
        (case["rulebook"], line.split()[0])
        for _, case in CASES
        for line in case["given"]
        if " counted from " in line or line.endswith(" as written")
    }
    every = {(id, rule.id): kind for id, each in SHELF.items() for kind, rule in rules(each.rulebook)}
    assert set(every.values()) - {every[one] for one in named} == {"grade", "criterion", "due", "gap"}


def test_a_case_stands_in_the_file_of_its_rulebook():
    assert [case["says"] for file, case in CASES if case["rulebook"] != file] == []


def test_a_line_that_is_none_is_not_passed_over():
    with pytest.raises(ValueError, match="no line of a case: 'repared 2025-01-01'"):
        given(["repared 2025-01-01"], SHELF["gb"].rulebook)
