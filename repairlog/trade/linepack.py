"""How much gas a length of pipe holds, and how much of it a fall in pressure lets out."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from repairlog.trade.gas import BASE_PRESSURE_PA, BASE_TEMPERATURE_K, CUBIC_METRES_IN_FT3, PASCALS_IN_PSI
from repairlog.trade.unworkable import Unworkable, within

COLDEST_C, WARMEST_C = -20.0, 40.0
COLDEST_ABOVE_500_C = 10.0
LEAST_GRAVITY, MOST_GRAVITY = 0.55, 0.70

# Largest error in the contents, per cent, by greatest gravity and greatest gauge pressure in psi: measured against
# GERG-2008 (pyaga8 0.1.18) for natural gases from pure methane to gravity 0.70 over the temperatures above.
_MEASURED = (
    (0.60, ((300, 0.3), (500, 0.8), (1000, 0.9))),
    (0.65, ((300, 0.9), (500, 0.9), (1000, 1.1))),
    (0.70, ((300, 1.6), (500, 1.6), (1000, 1.9))),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePack:
    """Standard cubic feet at 60 F and 14.73 psia; `error_percent`: the largest error of the contents as measured."""

    volume_ft3: float
    contents_scf: float
    left_scf: float
    vented_scf: float
    z_from: float
    z_to: float
    error_percent: float


def compressibility(*, gauge_pa: float, temperature_k: float, gravity: float) -> float:
    """Z of a natural gas, 1 at no gauge pressure, so that it is against the gas at base. Raises `Unworkable`.

    Source: the short form of the California Natural Gas Association: 1/Z = 1 + 344,400 P 10^(1.785 G) / T^3.825, with
    P in psi gauge and T in degrees Rankine.
    """
    psi, celsius = gauge_pa / PASCALS_IN_PSI, temperature_k - 273.15
    if psi < -1e-9:
        raise Unworkable("below_atmosphere", field="to")
    within(psi, field="from", least=0, most=1000.001, unit="psi")
    within(gravity, field="gravity", least=LEAST_GRAVITY, most=MOST_GRAVITY)
    coldest = COLDEST_C if psi <= 500.001 else COLDEST_ABOVE_500_C
    within(round(celsius, 6), field="temperature", least=coldest, most=WARMEST_C, unit="°C")
    rankine: float = temperature_k * 1.8
    return float(1 / (1 + 344_400 * max(psi, 0) * 10 ** (1.785 * gravity) / rankine**3.825))


def measured_error(*, gauge_pa: float, gravity: float) -> float:
    """Per cent by which the contents may be wrong for the short form's sake, within its bounds."""
    bands = next(bands for most, bands in _MEASURED if gravity <= most + 1e-9)
    return next(error for most, error in bands if gauge_pa / PASCALS_IN_PSI <= most + 0.001)


def line_pack(
    *,
    bore: float,
    length: float,
    before: float,
    after: float,
    atmosphere: float,
    temperature: float,
    gravity: float,
) -> LinePack:
    """What a pipe holds at the pressure before and at the one after; Pa absolute, K, m. Raises `Unworkable`.

    Source: the real gas law, N = V (P/Pb) (Tb/T) (Zb/Z).
    """
    if after > before:
        raise Unworkable("rises", field="to")
    volume = pi / 4 * bore**2 * length
    z_from, z_to = (
        compressibility(gauge_pa=it - atmosphere, temperature_k=temperature, gravity=gravity) for it in (before, after)
    )

    def held(pressure: float, z: float) -> float:
        at_base = volume * pressure / BASE_PRESSURE_PA * BASE_TEMPERATURE_K / temperature / z
        return at_base / CUBIC_METRES_IN_FT3

    contents, left = held(before, z_from), held(after, z_to)
    return LinePack(
        volume_ft3=volume / CUBIC_METRES_IN_FT3,
        contents_scf=contents,
        left_scf=left,
        vented_scf=contents - left,
        z_from=z_from,
        z_to=z_to,
        error_percent=measured_error(gauge_pa=before - atmosphere, gravity=gravity),
    )
