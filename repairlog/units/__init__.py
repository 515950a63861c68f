"""Quantities as people say them, read into decimals with a unit. Pure; threads may share it."""

from repairlog.units.atmosphere import atmosphere_at
from repairlog.units.complaint import NotUnderstood
from repairlog.units.conversion import Converted, convert, quantities_of
from repairlog.units.gases import GASES, STANDARD_LEL
from repairlog.units.limits import at_least, at_most
from repairlog.units.measure import Canonical, Measure, shown, split_canonical
from repairlog.units.quantities import QUANTITIES, Quantity
from repairlog.units.reading import STANDARD_ATMOSPHERE, read
from repairlog.units.table import TABLE, TABLE_DIGEST, TABLE_VERSION

__all__ = [
    "GASES",
    "QUANTITIES",
    "STANDARD_ATMOSPHERE",
    "STANDARD_LEL",
    "TABLE",
    "TABLE_DIGEST",
    "TABLE_VERSION",
    "Canonical",
    "Converted",
    "Measure",
    "NotUnderstood",
    "Quantity",
    "at_least",
    "at_most",
    "atmosphere_at",
    "convert",
    "quantities_of",
    "read",
    "shown",
    "split_canonical",
]
