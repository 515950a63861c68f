"""Gas escaping: through a hole, through an orifice at low pressure, or out of a severed line. SI throughout.

Pressures are absolute, in Pa; temperatures in K; areas in m2; molar masses in kg/mol; mass flows in kg/s.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log, log10, pi, sqrt

from repairlog.trade.gas import GAS_CONSTANT
from repairlog.trade.unworkable import Unworkable, within

CHOKED, SUBSONIC = "choked", "subsonic"

LOW_PRESSURE_CONSTANT = 1658.5
"""Cubic feet an hour of air through a square inch at one inch of water. Source: NFPA 54, Annex E, as its table prints
it; an exact evaluation for dry air gives 1652.9 to 1655.8, so the form reads 0.2 to 0.3 % high."""

MOST_LOW_PRESSURE_IN_WC = 28.0
LAMINAR_BELOW = 2040.0  # the Reynolds number under which a pipe's flow is taken as laminar


@dataclass(frozen=True, slots=True, kw_only=True)
class Escape:
    """`regime` is choked or subsonic. `critical_ratio` and `pressure_ratio` are of absolute pressures, the one outside
    over the one inside; None for the low-pressure form, which knows neither."""

    regime: str
    mass_flow_kg_s: float
    critical_ratio: float | None = None
    pressure_ratio: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Severed:
    """What leaves the open end: as `Escape`, with Darcy's friction factor, the Reynolds number, and the pressure in the
    end's own plane (Pa absolute; above the atmosphere where choked)."""

    regime: str
    mass_flow_kg_s: float
    friction_factor: float
    reynolds: float
    end_pa: float


def critical_ratio(k: float) -> float:
    """Outside over inside pressure (absolute) at and under which the flow is choked; `k`: ratio of specific heats.

    Source: isentropic flow of an ideal gas, (2/(k+1))^(k/(k-1)).
    """
    return float((2 / (k + 1)) ** (k / (k - 1)))


def mass_flow(
    *,
    area: float,
    inside: float,
    outside: float,
    temperature: float,
    molar_mass: float,
    k: float,
    discharge: float,
    z: float,
) -> float:
    """kg/s through an opening from a vessel at rest; zero where no pressure drives it. Bounds are the caller's.

    Source: one-dimensional isentropic flow of an ideal gas, with Z in the density (API Standard 520 Part I has the
    same two forms); `discharge` is the share of the ideal flow.
    """
    ratio = outside / inside
    power = k / (k - 1)
    if ratio <= (2 / (k + 1)) ** power:
        state = k * molar_mass / (z * GAS_CONSTANT * temperature)
        return float(discharge * area * inside * sqrt(state) * (2 / (k + 1)) ** ((k + 1) / (2 * (k - 1))))
    if ratio >= 1:
        return 0.0
    state = 2 * molar_mass / (z * GAS_CONSTANT * temperature) * power
    return float(discharge * area * inside * sqrt(state * (ratio ** (2 / k) - ratio ** ((k + 1) / k))))


def through_hole(
    *,
    area: float,
    inside: float,
    outside: float,
    temperature: float,
    molar_mass: float,
    k: float,
    discharge: float,
    z: float,
) -> Escape:
    """The same with its regime. Raises `Unworkable` outside what the formula was checked for."""
    checked(inside - outside, temperature=temperature, k=k)
    within(discharge, field="cd", least=0.05, most=1.0)
    within(z, field="z", least=0.3, most=1.5)
    ratio, critical = outside / inside, critical_ratio(k)
    return Escape(
        regime=CHOKED if ratio <= critical else SUBSONIC,
        mass_flow_kg_s=mass_flow(
            area=area,
            inside=inside,
            outside=outside,
            temperature=temperature,
            molar_mass=molar_mass,
            k=k,
            discharge=discharge,
            z=z,
        ),
        critical_ratio=critical,
        pressure_ratio=ratio,
    )


def checked(gauge: float, *, temperature: float, k: float) -> None:
    """Raises `Unworkable` where gauge pressure (Pa), temperature (K) or `k` lie outside what the forms were checked
    for: 0 to 1,000 psi, -40 to 60 degC, 1.01 to 1.7; all ends count."""
    if gauge < 0:
        raise Unworkable("no_escape", field="pressure")
    within(gauge / 6894.757293168361, field="pressure", least=0, most=1000.001, unit="psi")
    within(temperature - 273.15, field="temperature", least=-40, most=60, unit="°C")
    within(k, field="k", least=1.01, most=1.7)


def low_pressure_scfh(*, area_in2: float, head_in_wc: float, gravity: float, factor: float) -> float:
    """Standard cubic feet an hour through an orifice at up to 28 inches of water, in the form of the printed tables.

    `factor` is the tables' K. Raises `Unworkable`. Source: NFPA 54, Annex E: 1658.5 K A sqrt(H / gravity).
    """
    if head_in_wc < 0:
        raise Unworkable("no_escape", field="pressure")
    within(head_in_wc, field="pressure", least=0, most=MOST_LOW_PRESSURE_IN_WC, unit="in wc")
    within(factor, field="cd", least=0.05, most=1.0)
    return LOW_PRESSURE_CONSTANT * factor * area_in2 * sqrt(head_in_wc / gravity)


def from_severed_line(
    *,
    bore: float,
    length: float,
    inside: float,
    outside: float,
    temperature: float,
    molar_mass: float,
    roughness: float,
    viscosity: float,
    k: float,
) -> Severed:
    """kg/s out of the open end of a pipe whose other end is held at `inside`; lengths in m, viscosity in Pa s.

    The friction factor is Colebrook's, found together with the flow. The pressure at the end is the atmosphere, or the
    one at which the flow is greatest. Raises `severed_too_short` where the entrance, not the pipe, holds the flow back.
    Source: isothermal compressible flow in a pipe, m = A sqrt((rho1/P1)(P1^2-P2^2)/(f L/D + 2 ln(P1/P2))).
    """
    checked(inside - outside, temperature=temperature, k=k)
    within(roughness / bore, field="roughness", least=0, most=0.05)
    if inside == outside:
        raise Unworkable("no_escape", field="pressure")
    friction, flow, reynolds, end = 0.02, 0.0, 0.0, outside
    for _turn in range(100):
        end = max(outside, inside * sqrt(_critical_square(friction * length / bore)))
        flow = _isothermal(
            bore=bore,
            resistance=friction * length / bore,
            inside=inside,
            end=end,
            z_rt=GAS_CONSTANT * temperature / molar_mass,
        )
        reynolds = 4 * flow / (pi * bore * viscosity)
        before, friction = friction, friction_factor(reynolds, roughness=roughness / bore)
        if abs(friction - before) <= 1e-14 * friction:
            break
    open_bore = mass_flow(
        area=pi / 4 * bore**2,
        inside=inside,
        outside=outside,
        temperature=temperature,
        molar_mass=molar_mass,
        k=k,
        discharge=1.0,
        z=1.0,
    )
    if flow > open_bore:
        raise Unworkable("severed_too_short", field="length")
    return Severed(
        regime=CHOKED if end > outside else SUBSONIC,
        mass_flow_kg_s=flow,
        friction_factor=friction,
        reynolds=reynolds,
        end_pa=end,
    )


def friction_factor(reynolds: float, *, roughness: float) -> float:
    """Darcy's friction factor; `roughness` is relative to the bore.

    Source: 64/Re below 2,040, else Colebrook (1939).
    """
    if reynolds < LAMINAR_BELOW:
        return 64 / reynolds
    root = 7.0  # 1/sqrt(f) of an ordinary pipe
    for _turn in range(100):
        before, root = root, -2 * log10(roughness / 3.7 + 2.51 * root / reynolds)
        if abs(root - before) <= 1e-15 * root:
            break
    return 1 / root**2


def _isothermal(*, bore: float, resistance: float, inside: float, end: float, z_rt: float) -> float:
    drop = (inside**2 - end**2) / (z_rt * (resistance + 2 * log(inside / end)))
    return pi / 4 * bore**2 * sqrt(drop)


def _critical_square(resistance: float) -> float:
    """(P2/P1)^2 at which the isothermal flow through f L/D is greatest: the root of x (f L/D + 1 - ln x) = 1."""
    low, high = 0.0, 1.0
    for _turn in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if middle * (resistance + 1 - log(middle)) < 1:
            low = middle
        else:
            high = middle
    return high
