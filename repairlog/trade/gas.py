"""Natural gas as the figures take it: base conditions, molar mass, density at base.

Base is 60 F and 14.73 psia wherever a figure says standard cubic feet.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from repairlog.trade.unworkable import within

GAS_CONSTANT = 8.31446261815324
"""J/(mol K). Source: the SI of 2019, the product of the defined Boltzmann and Avogadro constants."""

PASCALS_IN_PSI = 6894.757293168361
CUBIC_METRES_IN_FT3 = 0.028316846592
KELVINS_IN_RANKINE = 5 / 9
BASE_PRESSURE_PSIA = 14.73
BASE_PRESSURE_PA = BASE_PRESSURE_PSIA * PASCALS_IN_PSI
BASE_TEMPERATURE_K = (60 + 459.67) * KELVINS_IN_RANKINE
BASE = "60 degF, 14.73 psia"

METHANE_MOLAR_MASS = 0.0160428
"""kg/mol. Source: CoolProp 8.0.0 (Setzmann and Wagner 1991)."""

AIR_MOLAR_MASS = 0.0289647
"""kg/mol, dry. Source: ISO 6976 (28.9655 in 2016, 28.9626 before); the two differ by a hundredth of a per cent."""

LEAST_GRAVITY, MOST_GRAVITY = 0.5, 2.1

# How far a gas is from ideal at base: sqrt(1 - Z) by its gravity, computed at 60 F and 14.73 psia. Methane, propane and
# n-butane: CoolProp 8.0.0, reference equations; natural gas of gravity 0.594: GERG-2008 by pyaga8 0.1.18. The root
# runs nearly straight between gases of one family (as the summation factors of AGA Report No. 8 rest on).
_ROOTS = ((0.5539, 0.044354), (0.594, 0.046860), (1.5224, 0.134158), (2.0067, 0.183575))


@dataclass(frozen=True, slots=True, kw_only=True)
class Gas:
    """`molar_mass` in kg/mol, `z_base` at 60 F and 14.73 psia, `gravity` against air, `is_methane` where it is pure."""

    gravity: float
    molar_mass: float
    z_base: float
    is_methane: bool

    @property
    def base_density(self) -> float:
        """kg/m3 of the real gas at base."""
        return BASE_PRESSURE_PA * self.molar_mass / (self.z_base * GAS_CONSTANT * BASE_TEMPERATURE_K)


METHANE = Gas(
    gravity=METHANE_MOLAR_MASS / AIR_MOLAR_MASS, molar_mass=METHANE_MOLAR_MASS, z_base=0.9980327, is_methane=True
)


def of_gravity(gravity: float) -> Gas:
    """A natural gas known by its gravity alone (air 1); from 0.5 to 2.1, both of which count, else `outside`."""
    within(gravity, field="gravity", least=LEAST_GRAVITY, most=MOST_GRAVITY)
    return Gas(gravity=gravity, molar_mass=gravity * AIR_MOLAR_MASS, z_base=1 - _root(gravity) ** 2, is_methane=False)


def scfh(mass_flow_kg_s: float, *, gas: Gas) -> float:
    """Standard cubic feet an hour of so much mass a second."""
    return mass_flow_kg_s / gas.base_density / CUBIC_METRES_IN_FT3 * 3600


def kg_per_s(standard_flow_scfh: float, *, gas: Gas) -> float:
    """Mass a second of so many standard cubic feet an hour."""
    return standard_flow_scfh / 3600 * CUBIC_METRES_IN_FT3 * gas.base_density


def _root(gravity: float) -> float:
    (low, at_low), (high, at_high) = next((pair for pair in pairwise(_ROOTS) if gravity <= pair[1][0]), _ROOTS[-2:])
    return at_low + (gravity - low) * (at_high - at_low) / (high - low)
