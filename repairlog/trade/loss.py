"""Gas lost over the life of a leak: rates, each over its elapsed hours."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from repairlog.trade.flow import checked, mass_flow


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """So many elapsed hours at one rate, in standard cubic feet an hour."""

    rate_scfh: float
    hours: float


def volume_scf(segments: Iterable[Segment]) -> float:
    """What was lost, in standard cubic feet: the sum of the segments."""
    volume = 0.0
    for it in segments:
        volume += it.rate_scfh * it.hours
    return volume


def rate_factor(*, before: float, after: float, outside: float, k: float) -> float:
    """By how much a leak's rate changes when its pressure does; pressures in Pa absolute.

    While both are choked it is the ratio of the absolute pressures. The opening is taken as unchanged. Raises
    `Unworkable` for a pressure that the formula was not checked for. Source: isentropic flow, as `flow.mass_flow`.
    """
    for inside in (before, after):
        checked(inside - outside, temperature=288.15, k=k)

    def at(inside: float) -> float:
        return mass_flow(
            area=1.0,
            inside=inside,
            outside=outside,
            temperature=288.15,
            molar_mass=0.016,
            k=k,
            discharge=1.0,
            z=1.0,
        )

    return at(after) / at(before)
