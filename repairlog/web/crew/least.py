"""The least grade that readings call for, as a page shows it beside the grade that a person sets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from repairlog.entries.entry import NOT_YET, Standing
from repairlog.entries.visit import VISIT
from repairlog.intake.understood import read_so_far
from repairlog.records.queries.adopted import AdoptedRow, adopted, rulebook_with
from repairlog.records.queries.leaks import LeakRow
from repairlog.records.story import story_of
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS, rank_of
from repairlog.trade.grading import (
    CalledFor,
    Found,
    asked_after_venting,
    called_for,
    grader,
    nearly_met,
    venting_of,
    waited,
)
from repairlog.trade.intervals import USUAL_CALENDAR, Around
from repairlog.trade.rulebook import Rulebook
from repairlog.web.frame.asking import asker, store
from repairlog.web.frame.where import Where
from repairlog.words import grading as words

Raw = Mapping[str, Any]

SEEN = "seen"
"""The box in which a page says which of this its reader was shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """What binds an area on a day: its rulebook, and the days on which its rules were confirmed, by id."""

    rulebook: Rulebook
    adopted: AdoptedRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Least:
    """`binding`: None where the area adopted no rulebook for that day: then nothing else stands here. `lines`: what a
    person should read, the grade first. `code`: of the least grade called for, `rank` its rank; empty and None where
    nothing measured calls for one. `criterion`: id of the one that decides. `lower`: the grade that is set, or that
    stands, is less hazardous than that. `unexplained`: a lower one is being set, and nobody said why yet. `venting`:
    what is asked after venting before a lower grade; `lacks`: what of it is lacking where one is being set."""

    binding: Binding | None
    lines: Sequence[str] = ()
    code: str = ""
    rank: int | None = None
    criterion: str = ""
    lower: bool = False
    unexplained: bool = False
    venting: Sequence[str] = ()
    lacks: str = ""

    @property
    def token(self) -> str:
        """What has to have been shown before anything is saved; empty where nothing has."""
        if self.binding is None or not (self.lower or self.lacks):
            return ""
        why = "unexplained" if self.unexplained else "lower" if self.lower else "venting"
        return "-".join(filter(None, (self.binding.rulebook.digest[:12], self.criterion, why, self.lacks)))


def binding_of(where: Where, *, on: str) -> Binding | None:
    """What binds the leak's area on that day (`YYYY-MM-DD`)."""
    if not where.areas:
        return None
    with store().reading() as tx:
        holds = adopted(asker().scope, tx, area=where.areas[0].id, on=date.fromisoformat(on))
        rulebook = rulebook_with(asker().scope, tx, digest=holds.digest) if holds else None
    return Binding(rulebook=rulebook, adopted=holds) if holds and rulebook else None


def day_of(raw: Raw) -> str:
    """The day of an entry as far as it is typed; empty where none can be read."""
    on = str(raw.get("happened", ""))[:10]
    try:
        return date.fromisoformat(on).isoformat()
    except ValueError:
        return ""


def typed_visit(raw: Raw, *, area: Area) -> Standing:
    """A visit as it is typed, as far as it can be read."""
    understood = read_so_far(raw, VISIT, area=area, moments=asker().moments)
    return Standing(index=NOT_YET, said=raw, understood=understood, by={}, moments={}, private={})


def visits_to(leak: UUID) -> list[Standing]:
    """The visits to that leak that stand, in the order they happened."""
    with store().reading() as tx:
        story = story_of(asker().scope, tx, leak=leak)
    live = [told.entry for told in story.told if told.entry.void is None] if story else []
    return [each for each in live if each.kind == "visit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What a grade is held against. `found`: at the look that it rests on; `readings`: of it by key, as people say them
    with their place; `visits`: all of the leak, that look too, in the order they happened; `area`: of the leak."""

    found: Found
    readings: Mapping[str, str]
    visits: Sequence[Standing]
    area: Area


def least_of(before: Before, binding: Binding | None, *, leak: LeakRow | None, grade: Raw, on: str) -> Least:
    """The least grade that was called for, beside the one being set (`grade`, an entry as typed, perhaps empty) on that
    day, or the leak's own."""
    if binding is None:
        return Least(binding=None)
    by = grader(binding.rulebook)
    called = called_for(by, before.found)
    setting = grade.get("grade", "")
    rank = _rank(binding, setting, given=grade.get("rank")) if setting else leak.rank if leak else None
    lower = called.grade is not None and (rank is None or rank > called.grade.rank)
    venting, lacks = _after_venting(before, binding, leak=leak, on=on)
    lowers = bool(setting) and leak is not None and None not in (rank, leak.rank) and (rank or 0) > (leak.rank or 0)
    return Least(
        binding=binding,
        lines=[*words.lines(called, nearly_met(by, before.found)), *_because(called, binding, before.readings)],
        code=called.grade.code if called.grade else "",
        rank=called.grade.rank if called.grade else None,
        criterion=called.by.criterion.id if called.by else "",
        lower=lower,
        unexplained=lower and bool(setting) and not grade.get("reason"),
        venting=venting,
        lacks=lacks if lowers else "",
    )


def _after_venting(before: Before, binding: Binding, *, leak: LeakRow | None, on: str) -> tuple[list[str], str]:
    """What the rulebook asks before a lower grade, in sentences, and what of it is lacking; nothing where nothing was
    vented, or the leak has no grade that could be lowered."""
    venting = venting_of(before.visits, zone=ZoneInfo(before.area.zone))
    if venting is None or leak is None or not leak.grade:
        return [], ""
    asked = asked_after_venting(binding.rulebook, grade=leak.grade, on=on)
    if asked.rule is None:
        return words.not_said_after_venting(asked), ""
    found = waited(asked.rule, venting, around=Around(calendar=before.area.calendar or USUAL_CALENDAR))
    confirmed = binding.adopted.confirmed.get(asked.rule.id, "")
    return [*words.after_venting(found), words.known_how(asked.rule.cited, confirmed=confirmed)], found.lacks


def _because(called: CalledFor, binding: Binding, readings: Mapping[str, str]) -> list[str]:
    if called.by is None:
        return []
    cited = called.by.criterion.cited
    decided = [readings[key] for key in called.by.readings if key in readings]
    confirmed = binding.adopted.confirmed.get(called.by.criterion.id, "")
    return [*words.decided_by(decided), words.known_how(cited, confirmed=confirmed)]


def _rank(binding: Binding, code: str, *, given: str | None) -> int | None:
    of_book = next((each.rank for each in binding.rulebook.grades if each.code == code), None)
    return of_book or rank_of(code, given=int(given) if given and given.isdigit() else None)


def as_set(grade: Raw, least: Least) -> dict[str, Any]:
    """The grade as it is saved: with the criterion where it is just what was called for and nobody cited another, and
    with its rank where only the rulebook knows it."""
    said = dict(grade)
    if said.get("grade") == least.code and least.criterion:
        said.setdefault("criterion", least.criterion)
    if least.binding and said.get("grade", "") not in USUAL_RANKS:
        rank = _rank(least.binding, said.get("grade", ""), given=said.get("rank"))
        said |= {"rank": str(rank)} if rank is not None else {}
    return said
