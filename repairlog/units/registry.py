"""The one Pint registry, made when the module is imported, and the only place that speaks to it.

It knows the few units below and nothing else: Pint's own list takes a quarter of a second to read, and carries
readings (such as water at 60 F by its own density) that differ from the published factors. No text of a user comes
here: every expression stands in `repairlog.units.table`. All sizes are taken at import, under the lock of the import
system, so that threads only ever read finished numbers.
"""

from __future__ import annotations

from decimal import Context, Decimal, localcontext

import pint

# International yard and pound of 1959 (0.9144 m, 0.45359237 kg); standard gravity and atmosphere, CGPM 1901 and 1954.
# Conventional densities of water and mercury, 1000 and 13595.1 kg/m3: NIST SP 811 (2008), appendix B.
# Water at 4 C and 60 F, mercury at 60 F: the rounded factors of the same appendix (60 F water from memory).
_DEFINITIONS = """
meter = [length]
kilogram = [mass]
second = [time]
kelvin = [temperature]
gravity = 9.80665 * meter / second ** 2
inch = 0.0254 * meter
foot = 12 * inch
yard = 3 * foot
mile = 1760 * yard
minute = 60 * second
hour = 60 * minute
day = 24 * hour
pascal = kilogram / meter / second ** 2
atmosphere = 101325 * pascal
pound_force = 0.45359237 * kilogram * gravity
kilogram_force = kilogram * gravity
water = 1000 * kilogram / meter ** 3 * gravity
mercury = 13595.1 * kilogram / meter ** 3 * gravity
water_4C = 249.082 * pascal / inch
water_60F = 248.84 * pascal / inch
mercury_60F = 3376.85 * pascal / inch
"""

_registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(
    _DEFINITIONS.split("\n"), non_int_type=Decimal, cache_folder=None
)
_ONE = _registry.Quantity(Decimal(1))
_WIDE = Context(prec=60)  # every size below ends within thirty digits, so nothing is rounded


def size(expression: str) -> Decimal:
    """How many SI base units an expression of ours is, exactly; `inch ** 2` is 0.00064516 (m2)."""
    with localcontext(_WIDE):
        return Decimal((_registry.parse_expression(expression) * _ONE).to_base_units().magnitude)
