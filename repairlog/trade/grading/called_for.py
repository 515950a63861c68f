"""The least grade that what was found calls for: each criterion met or nearly met, and what decided."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from repairlog.trade.grading.bounds import Limit, limits_of, measure_within, within
from repairlog.trade.grading.found import NOT_A_CONCENTRATION, Found, Reading, Spot
from repairlog.trade.rulebook import ASSUMED, Criterion, Grade, Rulebook

OTHER_BASIS = Decimal("4.4")
"""The lower explosive limit of methane of IEC 60079-20-1: met only there, a criterion is nearly met."""

OWNER = "owner"
"""Said among what was taken to be so, where nobody knew whose the substructure is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A criterion that what was found meets. `readings`: keys of those that decided. `assumed`: what nobody answered,
    and what was therefore taken to be so."""

    criterion: Criterion
    readings: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearly:
    """A criterion of which one part is not met. `lacks`: `reading`, `only_at_4_4`, or the condition that nobody said.
    `readings`: keys of those that came nearest."""

    criterion: Criterion
    lacks: str
    readings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CalledFor:
    """`grade`, `by`: the least grade and the criterion that calls for it; None where none is met. `met`, `nearly`: the
    most hazardous first. `not_judged`: keys of readings that can set no grade."""

    grade: Grade | None = None
    by: Met | None = None
    met: tuple[Met, ...] = ()
    nearly: tuple[Nearly, ...] = ()
    not_judged: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ready:
    """A criterion with what is worked out once a rulebook. `order`: rank of its grade, then its place among all.
    `said`, `weighed`: its conditions that hold when somebody says so, and those that count as met unless denied."""

    criterion: Criterion
    order: tuple[int, int]
    limits: tuple[Limit, ...] | None
    said: tuple[str, ...]
    weighed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grader:
    """A rulebook made ready to grade by. `of_grade`: criteria that count only for a leak that has a grade already."""

    grades: Mapping[str, Grade]
    standing: tuple[Ready, ...]
    of_grade: tuple[Ready, ...]


def grader(rulebook: Rulebook) -> Grader:
    """The rulebook ready to grade by. What somebody has to judge is left out: nothing measured decides it."""
    grades = {each.code: each for each in rulebook.grades}
    ready = [
        Ready(
            each,
            (grades[each.calls_for].rank, place),
            limits_of(each.reading.bound) if each.reading else None,
            tuple(name for name in each.conditions if name not in ASSUMED),
            tuple(name for name in each.conditions if name in ASSUMED),
        )
        for place, each in enumerate(rulebook.criteria)
        if each.calls_for in grades and not each.judged
    ]
    ready.sort(key=lambda each: each.order)
    return Grader(
        grades=grades,
        standing=tuple(each for each in ready if not each.criterion.of_grade),
        of_grade=tuple(each for each in ready if each.criterion.of_grade),
    )


def called_for(by: Grader, found: Found) -> CalledFor:
    """The least grade that what was found calls for under that rulebook. A person may always grade higher.

    A condition that nobody answered counts as met, and stands under `assumed`: so the grade is rather too high than
    too low. Carbon monoxide and what a laser sums along its path set no grade.
    """
    by_place, not_judged = _sorted(found.readings)
    said = found.said if "paved_wall_to_wall" in found.said else found.said | {"not_paved_wall_to_wall"}
    met: list[Met] = []
    nearly: list[Nearly] = []
    for ready in by.standing:
        _look(ready, found, said, by_place, met, nearly)
    base = met[0].criterion.calls_for if met else ""
    if found.grade in by.grades and (not base or by.grades[found.grade].rank < by.grades[base].rank):
        base = found.grade
    for ready in by.of_grade:
        if not base or ready.criterion.of_grade == base:
            _look(ready, found, said, by_place, met, nearly)
    first = _deciding(met)
    return CalledFor(
        grade=by.grades[first.criterion.calls_for] if first else None,
        by=first,
        met=tuple(met),
        nearly=tuple(nearly),
        not_judged=tuple(not_judged),
    )


def _deciding(met: Sequence[Met]) -> Met | None:
    """The one that calls for the grade: a class of its own within a grade, where one is met, else the most hazardous
    grade's, and of those the one that takes least to be so."""
    if not met:
        return None
    own = [each for each in met if each.criterion.of_grade]
    if own:
        return own[0]
    same = [each for each in met if each.criterion.calls_for == met[0].criterion.calls_for]
    return min(same, key=lambda each: len(each.assumed))


_ByPlace = dict[str, list[Reading]]


def _sorted(readings: Sequence[Reading]) -> tuple[_ByPlace, list[str]]:
    """The readings by each place that they count as, all of them under an empty one; and those that set no grade."""
    by_place: _ByPlace = {"": []}
    not_judged: list[str] = []
    for reading in readings:
        if reading.unit == NOT_A_CONCENTRATION or reading.gas == "carbon_monoxide":
            not_judged.append(reading.key)
            continue
        by_place[""].append(reading)
        for place in reading.spot.counts_as:
            by_place.setdefault(place, []).append(reading)
    return by_place, not_judged


def _look(
    ready: Ready,
    found: Found,
    said: frozenset[str],
    by_place: _ByPlace,
    met: list[Met],
    nearly: list[Nearly],
) -> None:
    """Put the criterion with those met, with those of which one part is not met, or with neither."""
    criterion = ready.criterion
    readings: Sequence[Reading] = by_place.get(criterion.place, ())
    if ready.limits is not None and not readings:
        return
    lacks = [name for name in ready.said if name not in said]
    if len(lacks) > 1 or any(found.answers.get(name) is False for name in ready.weighed):
        return
    if not _line_and_extent(criterion, found):
        return
    hits: Sequence[Reading] = ()
    unknown_owner = False
    if ready.limits is not None:
        there = [each for each in readings if _counts(each, criterion)]
        hits = [each for each in there if within(each, ready.limits)]
        if not hits:
            if not there or lacks:
                return
            lacks = [_lack(there, ready.limits)]
        unknown_owner = bool(criterion.owner) and not any(each.spot.owner for each in hits or there)
    elif criterion.place or criterion.distance:
        spots = [each for each in found.spots if _is_there(each, criterion)]
        if not spots:
            return
        unknown_owner = bool(criterion.owner) and not any(each.owner for each in spots)
    if lacks:
        nearest = hits or (there if ready.limits is not None else ())
        nearly.append(Nearly(criterion=criterion, lacks=lacks[0], readings=tuple(each.key for each in nearest)))
        return
    assumed = tuple(name for name in ready.weighed if name not in found.answers)
    met.append(
        Met(
            criterion=criterion,
            readings=tuple(each.key for each in hits),
            assumed=(*assumed, OWNER) if unknown_owner else assumed,
        )
    )


def _counts(reading: Reading, criterion: Criterion) -> bool:
    """Whether a reading is of the gas, kind, owner and distance that the criterion speaks of."""
    asked = criterion.reading
    if asked is None or reading.gas != asked.gas:
        return False
    if asked.kind and reading.kind and reading.kind != asked.kind:
        return False
    return (not criterion.owner and criterion.distance is None) or _is_there(reading.spot, criterion)


def _is_there(spot: Spot, criterion: Criterion) -> bool:
    if criterion.place and criterion.place not in spot.counts_as:
        return False
    if criterion.owner and spot.owner and spot.owner != criterion.owner:
        return False
    if criterion.distance is None:
        return True
    return spot.distance is not None and measure_within(spot.distance, criterion.distance)


def _line_and_extent(criterion: Criterion, found: Found) -> bool:
    """Whether what the criterion asks of the line and of the extent is known, and so. Not known is not met."""
    least = criterion.percent_smys_at_least
    if least is not None and (found.percent_smys is None or found.percent_smys < least):
        return False
    if criterion.class_locations and found.class_location not in criterion.class_locations:
        return False
    bound = criterion.extent
    return bound is None or (found.extent is not None and measure_within(found.extent, bound))


def _lack(there: Sequence[Reading], limits: tuple[Limit, ...]) -> str:
    at_other = [each for each in there if each.gas == "methane" and within(each, limits, lel_basis=OTHER_BASIS)]
    return "only_at_4_4" if at_other else "reading"
