"""What a leak lost over its own history: its hours and pressures as segments of the figure of loss."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from repairlog.figures.loss import FREE, HOLE
from repairlog.trade.release import Release, Stretch
from repairlog.trade.unworkable import Unworkable


@dataclass(frozen=True, slots=True, kw_only=True)
class Rated:
    """What is known of a leak's rate, as typed, empty where it is not. `basis`: where the rate comes from; `rate_at`:
    the line's pressure when the rate was measured; `hole`: what the gas blows free of."""

    basis: str = ""
    rate: str = ""
    rate_at: str = ""
    hole: str = ""


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
