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


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What was lost: standard cubic feet of gas, and the methane in it."""

    volume_scf: float
    methane_kg: float


def lost(segments: Iterable[Segment], *, methane_kg_per_scf: float) -> Loss:
    """The sum of the segments. `methane_kg_per_scf`: of the gas as it stands, its share of methane taken in."""
    volume = 0.0
    for it in segments:
        volume += it.rate_scfh * it.hours
    return Loss(volume_scf=volume, methane_kg=volume * methane_kg_per_scf)


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
