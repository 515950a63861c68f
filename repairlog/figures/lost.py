"""What a leak lost over its own history: its hours and pressures as segments of the figure of loss."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from repairlog.entries.entry import Standing
from repairlog.figures.loss import FREE, HOLE
from repairlog.trade.leak import Leak
from repairlog.trade.release import Release, Stretch, release
from repairlog.trade.unworkable import Unworkable
from repairlog.words import _


@dataclass(frozen=True, slots=True, kw_only=True)
class Rated:
    """What is known of a leak's rate, as typed, empty where it is not. `basis`: where the rate comes from; `rate_at`:
    the line's pressure when the rate was measured; `hole`: what the gas blows free of."""

    basis: str = ""
    rate: str = ""
    rate_at: str = ""
    hole: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Releases:
    """`whole`: until the last source is tight. `of_source`: of each by itself, by its number; empty where there is one
    source, or none is told."""

    whole: Release
    of_source: Mapping[int, Release]


def releases(leak: Leak, live: Sequence[Standing], *, until: datetime) -> Releases:
    """When gas came out of that leak, and of each of its sources where there are several; raises as `release` does."""
    several = leak.sources if len(leak.sources) > 1 else ()
    return Releases(
        whole=release(leak, live, until=until),
        of_source={each.number: release(leak, live, until=until, source=each.id) for each in several},
    )


def segments_of(of: Releases, rated: Mapping[int, Rated], *, zone: ZoneInfo) -> list[str]:
    """The segments of the figure of loss for a leak. `rated`: by the number of its source; 0 for all of them together,
    which then go on until the last is tight.

    Raises as `segments` does, with the number behind the field; `no_such_source`; `source_without_rate` where one of
    several is rated and another is not.
    """
    given = {number: it for number, it in rated.items() if it.rate or it.hole}
    if not given or (0 in given and len(given) == 1):
        said = _of_all(len(of.of_source)) if of.of_source else ""
        return [f"{said}{each}" for each in segments(of.whole, rated.get(0, Rated()), zone=zone)]
    return [each for number in _sources(of, given) for each in _of_source(number, of, given, zone=zone)]


def _sources(of: Releases, given: Mapping[int, Rated]) -> list[int]:
    if 0 in given:
        raise Unworkable("given_both", field="rate", other=_("the rates of its sources"))
    for number in given:
        if number not in of.of_source:
            raise Unworkable("no_such_source", field=f"rate_{number}", got=str(number))
    flowing = [number for number, each in of.of_source.items() if each.stretches]
    for number in flowing:
        if number not in given:
            raise Unworkable("source_without_rate", field=f"rate_{number}", got=str(number))
    return flowing


def _of_source(number: int, of: Releases, given: Mapping[int, Rated], *, zone: ZoneInfo) -> Iterator[str]:
    try:
        for each in segments(of.of_source[number], given[number], zone=zone):
            yield _("source {number}: ").format(number=number) + each
    except Unworkable as complaint:
        raise Unworkable(complaint.code, field=f"{complaint.field}_{number}", **complaint.facts) from None


def _of_all(several: int) -> str:
    return _("all {several} sources: ").format(several=several)


def segments(release: Release, rated: Rated, *, zone: ZoneInfo) -> list[str]:
    """The segments of the figure of loss, one a stretch, in that zone's hours with their offset.

    A rate follows the pressure where both are known. Raises `cannot_be_estimated` without a rate or, for gas that blows
    free, a hole; `hole_not_free`; `no_stretch`.
    """
    if not release.stretches:
        raise Unworkable("no_stretch", field="leak")
    if rated.hole and rated.basis != FREE:
        raise Unworkable("hole_not_free", field="hole", got=rated.hole)
    if rated.hole and rated.rate:
        raise Unworkable("given_both", field="hole", other="rate")
    if not rated.hole and not rated.rate:
        raise Unworkable("cannot_be_estimated", field="rate")
    return list(_with_hole(release, rated, zone) if rated.hole else _with_rate(release, rated, zone))


def _with_hole(release: Release, rated: Rated, zone: ZoneInfo) -> Iterator[str]:
    for each in release.stretches:
        if not each.pressure:
            raise Unworkable("hole_without_pressure", field="hole", got=f"{HOLE}{rated.hole}")
        yield f"{HOLE}{rated.hole} @ {each.pressure}, {_span(each, zone)}"


def _with_rate(release: Release, rated: Rated, zone: ZoneInfo) -> Iterator[str]:
    at = rated.rate_at or release.stretches[0].pressure
    known = bool(at) and all(each.pressure for each in release.stretches)
    if known and at != release.stretches[0].pressure:
        yield f"{rated.rate} @ {at}, 0 h"
    for each in release.stretches:
        first = at == each.pressure
        rate = f"{rated.rate} @ {at}" if first else f"@ {each.pressure}"
        yield f"{rate if known else rated.rate}, {_span(each, zone)}"


def _span(it: Stretch, zone: ZoneInfo) -> str:
    begins, ends = (at.astimezone(zone).isoformat(timespec="minutes") for at in (it.begins, it.ends))
    return f"{begins} to {ends}"
