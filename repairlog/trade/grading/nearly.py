"""Criteria of which all is met but one part: what a person should look at again before grading lower."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from repairlog.trade.grading.bounds import Limit, within
from repairlog.trade.grading.called_for import (
    Grader,
    Ready,
    assumed_of,
    counts,
    holds_of_line,
    is_at,
    said_with_paving,
    sets_no_grade,
)
from repairlog.trade.grading.found import Found, Reading
from repairlog.trade.rulebook import Criterion

OTHER_BASIS = Decimal("4.4")
"""The lower explosive limit of methane of IEC 60079-20-1: met only there, a criterion is nearly met."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearly:
    """A criterion of which one part is not met. `rank`: of the grade that it calls for. `lacks`: `reading`,
    `only_at_4_4`, or the condition that nobody said. `readings`: keys of those that came nearest."""

    criterion: Criterion
    rank: int
    lacks: str
    readings: tuple[str, ...] = ()


def nearly_met(by: Grader, found: Found) -> tuple[Nearly, ...]:
    """Those that ask for a reading and lack one part, the most hazardous first; what only somebody can say would be
    nearly met everywhere, and is left out."""
    judged = [each for each in found.readings if not sets_no_grade(each)]
    said = said_with_paving(found)
    near = (_nearly(ready, found, said, judged) for ready in by.standing)
    return tuple(each for each in near if each)


def _nearly(ready: Ready, found: Found, said: frozenset[str], readings: Sequence[Reading]) -> Nearly | None:
    there = [each for each in readings if is_at(ready.place, each.spot.counts_as) and counts(each, ready)]
    if ready.limits is None or not there or assumed_of(ready, found) is None:
        return None
    if not holds_of_line(ready.criterion, found):
        return None
    hits = within(there, ready.limits)
    lacks = [*sorted(ready.said - said), *([] if hits else [_lack(there, ready.limits)])]
    if len(lacks) != 1:
        return None
    keys = tuple(each.key for each in hits or there)
    return Nearly(criterion=ready.criterion, rank=ready.order[0], lacks=lacks[0], readings=keys)


def _lack(there: Sequence[Reading], limits: tuple[Limit, ...]) -> str:
    methane = [each for each in there if each.gas == "methane"]
    return "only_at_4_4" if within(methane, limits, lel_basis=OTHER_BASIS) else "reading"
