"""The least grade that readings call for, as a page shows it beside the grade that a person sets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from repairlog.entries.entry import NOT_YET, Standing
from repairlog.entries.visit import VISIT
from repairlog.intake.form import Choices
from repairlog.intake.understood import measures_of
from repairlog.records.queries.adopted import AdoptedRow, adopted, rulebook_with
from repairlog.records.queries.leaks import LeakRow
from repairlog.trade.area import Area
from repairlog.trade.grade import USUAL_RANKS, rank_of
from repairlog.trade.grading import CalledFor, Found, called_for, found_at, grader, nearly_met
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
    stands, is less hazardous than that. `unexplained`: a lower one is being set, and nobody said why yet."""

    binding: Binding | None
    lines: Sequence[str] = ()
    code: str = ""
    rank: int | None = None
    criterion: str = ""
    lower: bool = False
    unexplained: bool = False

    @property
    def token(self) -> str:
        """What has to have been shown before anything is saved; empty where nothing has."""
        if not self.lower or self.binding is None:
            return ""
        why = "unexplained" if self.unexplained else "lower"
        return f"{self.binding.rulebook.digest[:12]}-{self.criterion}-{why}"


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


def found_of(raw: Raw, *, area: Area, grade: str) -> Found:
    """What a visit as it is typed found, as far as it can be read."""
    visit = Standing(
        index=NOT_YET, said=raw, understood=measures_of(raw, VISIT, area=area), by={}, moments={}, private={}
    )
    return found_at(visit, lel_basis=Decimal(area.lel_basis), grade=grade)


def least_of(
    found: Found, binding: Binding | None, *, leak: LeakRow | None, grade: Raw, readings: Mapping[str, str]
) -> Least:
    """The least grade that was called for, beside the one being set (`grade`, an entry as typed, perhaps empty) or the
    leak's own. `readings`: by key, a reading as people say it with its place."""
    if binding is None:
        return Least(binding=None)
    by = grader(binding.rulebook)
    called = called_for(by, found)
    setting = grade.get("grade", "")
    rank = _rank(binding, setting, given=grade.get("rank")) if setting else leak.rank if leak else None
    lower = called.grade is not None and (rank is None or rank > called.grade.rank)
    return Least(
        binding=binding,
        lines=[*words.lines(called, nearly_met(by, found)), *_because(called, binding, readings)],
        code=called.grade.code if called.grade else "",
        rank=called.grade.rank if called.grade else None,
        criterion=called.by.criterion.id if called.by else "",
        lower=lower,
        unexplained=lower and bool(setting) and not grade.get("reason"),
    )


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


def grade_choices(binding: Binding | None) -> Choices:
    """The grades to choose from: those of the rulebook, else the usual three."""
    if binding is None:
        return [(code, code) for code in USUAL_RANKS]
    return [(each.code, each.code) for each in sorted(binding.rulebook.grades, key=lambda each: each.rank)]


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
