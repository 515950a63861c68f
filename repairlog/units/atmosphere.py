"""The standard atmosphere at a height above the sea."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal, localcontext

from repairlog.units.complaint import complaint
from repairlog.units.exact import CANONICAL_DIGITS, plain
from repairlog.units.table import US76

LOWEST_M = Decimal(-1_000)
HIGHEST_M = Decimal(11_000)
_WIDE = Context(prec=40, rounding=ROUND_HALF_EVEN)


def atmosphere_at(elevation: Decimal) -> Decimal:
    """Pressure of the standard atmosphere, kPa absolute, nine significant digits. `elevation`: metres, geometric.

    Both ends, -1,000 m and 11,000 m, count; outside them raises `elevation_out_of_range`.
    Source: U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562), equations 18 (geopotential height) and 33a.
    """
    if not (elevation.is_finite() and LOWEST_M <= elevation <= HIGHEST_M):
        raise complaint(
            "elevation_out_of_range", got=f"{elevation:f} m", least=f"{plain(LOWEST_M)} m", most=f"{plain(HIGHEST_M)} m"
        )
    with localcontext(_WIDE):  # forty digits of decimal arithmetic: the same nine on every machine
        height = US76["radius_m"] * elevation / (US76["radius_m"] + elevation)
        at_height = US76["temperature_k"] - US76["lapse_k_per_m"] * height
        power = (
            US76["gravity_m_per_s2"]
            * US76["molar_mass_kg_per_kmol"]
            / (US76["gas_constant_j_per_kmol_k"] * US76["lapse_k_per_m"])
        )
        kpa = US76["pressure_pa"] / 1000 * ((at_height / US76["temperature_k"]).ln() * power).exp()
    return Decimal(plain(Context(prec=CANONICAL_DIGITS, rounding=ROUND_HALF_EVEN).plus(kpa)))
