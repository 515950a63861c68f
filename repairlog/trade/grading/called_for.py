"""The least grade that what was found calls for: each criterion met or nearly met, and what decided."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from repairlog.trade.grading.bounds import Limit, edges_of, limits_of, measure_within, samples_of, within
from repairlog.trade.grading.found import NOT_A_CONCENTRATION, Found, Reading, Spot
from repairlog.trade.rulebook import ASSUMED, Criterion, Grade, Rulebook

OWNER = "owner"
"""Said among what was taken to be so, where nobody knew whose the substructure is."""


@dataclass(frozen=True, slots=True)
class Met:
    """A criterion that what was found meets. `readings`: keys of those that decided. `assumed`: what nobody answered,
    and what was therefore taken to be so."""

    criterion: Criterion
    readings: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CalledFor:
    """`grade`, `by`: the least grade and the criterion that calls for it; None where none is met. `met`: all that are,
    the most hazardous first. `not_judged`: keys of readings that can set no grade."""

    grade: Grade | None = None
    by: Met | None = None
    met: tuple[Met, ...] = ()
    not_judged: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ready:
    """A criterion with what is worked out once a rulebook, the same one only as itself. `order`: rank of its grade,
    then its place among all. `said`, `weighed`: its conditions that hold when somebody says so, and those that count as
    met unless denied. `of_line`: it asks of the line or the extent. `of_spot`: it asks whose the place is, or how far
    from a building. `plain`: it asks for a reading at a place and for nothing that has to be looked into."""

    criterion: Criterion
    order: tuple[int, int]
    place: str
    limits: tuple[Limit, ...] | None
    gas: str
    kind: str
    said: frozenset[str]
    weighed: tuple[str, ...]
    of_line: bool
    of_spot: bool
    plain: bool


@dataclass(frozen=True, slots=True, eq=False)
class Grader:
    """A rulebook made ready to grade by, the same one only as itself. `of_grade`: criteria that count only for a leak
    that has a grade already."""

    grades: Mapping[str, Grade]
    standing: tuple[Ready, ...]
    of_grade: tuple[Ready, ...]


@lru_cache(maxsize=64)
def grader(rulebook: Rulebook) -> Grader:
    """The rulebook ready to grade by. What somebody has to judge is left out: nothing measured decides it."""
    grades = {each.code: each for each in rulebook.grades}
    ready = [
        _ready(each, (grades[each.calls_for].rank, place))
        for place, each in enumerate(rulebook.criteria)
        if each.calls_for in grades and not each.judged
    ]
    ready.sort(key=lambda each: each.order)
    return Grader(
        grades=grades,
        standing=tuple(each for each in ready if not each.criterion.of_grade),
        of_grade=tuple(each for each in ready if each.criterion.of_grade),
    )


def _ready(criterion: Criterion, order: tuple[int, int]) -> Ready:
    asked = criterion.reading
    weighed = tuple(name for name in criterion.conditions if name in ASSUMED)
    of_line = bool(criterion.percent_smys_at_least is not None or criterion.class_locations or criterion.extent)
    of_spot = bool(criterion.owner or criterion.distance)
    return Ready(
        criterion=criterion,
        order=order,
        place=criterion.place,
        limits=limits_of(asked.bound) if asked else None,
        gas=asked.gas if asked else "",
        kind=asked.kind if asked else "",
        said=frozenset(name for name in criterion.conditions if name not in ASSUMED),
        weighed=weighed,
        of_line=of_line,
        of_spot=of_spot,
        plain=asked is not None and not (asked.kind or weighed or of_line or of_spot),
    )


def called_for(by: Grader, found: Found) -> CalledFor:
    """The least grade that what was found calls for under that rulebook. A person may always grade higher.

    A condition that nobody answered counts as met, and stands under `assumed`: so the grade is rather too high than
    too low. Carbon monoxide and what a laser sums along its path set no grade.
    """
    hits, not_judged = _hits(by, found.readings)
    said = said_with_paving(found)
    met = _all_met(by.standing, found, said, hits)
    own: list[Met] = []
    if by.of_grade:
        base = _base(by, found, met)
        own = [each for each in _all_met(by.of_grade, found, said, hits) if base in ("", each.criterion.of_grade)]
    first = own[0] if own else _deciding(met)
    return CalledFor(
        grade=by.grades[first.criterion.calls_for] if first else None,
        by=first,
        met=(*met, *own),
        not_judged=tuple(not_judged),
    )


def _base(by: Grader, found: Found, met: Sequence[Met]) -> str:
    """The grade that the leak otherwise has: the one called for, or a more hazardous one that a person gave."""
    called = met[0].criterion.calls_for if met else ""
    if found.grade in by.grades and (not called or by.grades[found.grade].rank < by.grades[called].rank):
        return found.grade
    return called


def _deciding(met: Sequence[Met]) -> Met | None:
    """The one that calls for the grade: of those of the most hazardous grade, the one that takes least to be so."""
    if not met or not met[0].assumed:
        return met[0] if met else None
    same = [each for each in met if each.criterion.calls_for == met[0].criterion.calls_for]
    return min(same, key=lambda each: len(each.assumed))


Hits = dict[Ready, list[Reading]]
"""The readings that keep to the limits of each criterion, at its place."""


def _hits(by: Grader, readings: Sequence[Reading]) -> tuple[Hits, list[str]]:
    """What each criterion is met by, and the keys of the readings that set no grade."""
    hits: Hits = {}
    not_judged: list[str] = []
    for reading in readings:
        if sets_no_grade(reading):
            not_judged.append(reading.key)
            continue
        edges, met = _ladder(by, reading.spot.counts_as, reading.gas, reading.unit, reading.lel_basis)
        for ready in met[bisect_left(edges, reading.value) + bisect_right(edges, reading.value)]:
            hits.setdefault(ready, []).append(reading)
    return hits, not_judged


def sets_no_grade(reading: Reading) -> bool:
    """Whether it is none of the readings that a grade may hang on."""
    return reading.unit == NOT_A_CONCENTRATION or reading.gas == "carbon_monoxide"


Ladder = tuple[Sequence[Decimal], Sequence[tuple[Ready, ...]]]
"""Limits in their order, and the criteria met below the first, at it, between it and the next, and so on."""


@lru_cache(maxsize=4096)
def _ladder(by: Grader, places: frozenset[str], gas: str, unit: str, lel_basis: Decimal) -> Ladder:
    """The criteria that a reading of that gas, in that unit, at a place that counts as those, can meet by its value."""
    asked = [
        each
        for each in (*by.standing, *by.of_grade)
        if each.limits is not None and each.gas == gas and is_at(each.place, places)
    ]
    edges = edges_of([limit for each in asked for limit in each.limits or ()], unit=unit, lel_basis=lel_basis)
    samples = (Reading(key="", value=value, unit=unit, lel_basis=lel_basis) for value in samples_of(edges))
    return edges, [tuple(each for each in asked if within([one], each.limits or ())) for one in samples]


def said_with_paving(found: Found) -> frozenset[str]:
    """What was said, and that it is not paved from wall to wall where nobody said that it is."""
    return found.said if "paved_wall_to_wall" in found.said else found.said | {"not_paved_wall_to_wall"}


def _all_met(asked: Sequence[Ready], found: Found, said: frozenset[str], hits: Hits) -> list[Met]:
    """Those of the criteria that are met, in their order."""
    met = []
    for ready in asked:
        if (ready.limits is None or ready in hits) and ready.said <= said:
            one = _met(ready, found, hits.get(ready, []))
            if one:
                met.append(one)
    return met


def _met(ready: Ready, found: Found, hits: Sequence[Reading]) -> Met | None:
    """The criterion as met; None where a part of it is not, besides what somebody has to say."""
    if ready.plain:
        return _met_by(ready, tuple([each.key for each in hits]))
    if ready.of_line and not holds_of_line(ready.criterion, found):
        return None
    if ready.limits is not None:
        hits = [each for each in hits if counts(each, ready)]
        if not hits:
            return None
    assumed = assumed_of(ready, found)
    if assumed is None:
        return None
    if ready.of_spot or (ready.limits is None and ready.place):
        spots = found.spots if ready.limits is None else [each.spot for each in hits]
        there = [each for each in spots if _is_there(each, ready.criterion)]
        if not there:
            return None
        if ready.criterion.owner and not any(each.owner for each in there):
            assumed = (*assumed, OWNER)
    return _met_by(ready, tuple([each.key for each in hits]), assumed)


@lru_cache(maxsize=4096)
def _met_by(ready: Ready, readings: tuple[str, ...], assumed: tuple[str, ...] = ()) -> Met:
    """Kept, since the same few keys name the readings of most visits."""
    return Met(ready.criterion, readings, assumed)


def assumed_of(ready: Ready, found: Found) -> tuple[str, ...] | None:
    """Of what is weighed, what nobody answered; None where somebody denied some of it."""
    if not ready.weighed:
        return ()
    if any(found.answers.get(name) is False for name in ready.weighed):
        return None
    return tuple(name for name in ready.weighed if name not in found.answers)


def counts(reading: Reading, ready: Ready) -> bool:
    """Whether a reading is of the gas, kind, owner and distance that the criterion speaks of."""
    if reading.gas != ready.gas or (ready.kind and reading.kind and reading.kind != ready.kind):
        return False
    return not ready.of_spot or _is_there(reading.spot, ready.criterion)


def is_at(place: str, places: frozenset[str]) -> bool:
    """Whether a place of a rule is one of those; any is, where the rule names none."""
    return not place or place in places


def _is_there(spot: Spot, criterion: Criterion) -> bool:
    if not is_at(criterion.place, spot.counts_as):
        return False
    if criterion.owner and spot.owner and spot.owner != criterion.owner:
        return False
    if criterion.distance is None:
        return True
    return spot.distance is not None and measure_within(spot.distance, criterion.distance)


def holds_of_line(criterion: Criterion, found: Found) -> bool:
    """Whether what the criterion asks of the line and of the extent is known, and so. Not known is not met."""
    least = criterion.percent_smys_at_least
    if least is not None and (found.percent_smys is None or found.percent_smys < least):
        return False
    if criterion.class_locations and found.class_location not in criterion.class_locations:
        return False
    bound = criterion.extent
    return bound is None or (found.extent is not None and measure_within(found.extent, bound))
