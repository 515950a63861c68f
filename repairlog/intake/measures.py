"""A measure of an entry read in its area: by the atmosphere at its height, and what counts there as 100 %LEL."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from repairlog import units
from repairlog.entries.entry import Row
from repairlog.entries.fields import Field
from repairlog.trade.area import USUAL_LEL_BASIS, Area


def atmosphere_of(area: Area | None) -> Decimal:
    """The standard atmosphere at the area's height, kPa absolute; that of sea level where nobody said one."""
    return _atmosphere_at(area.elevation if area else "")


@lru_cache(maxsize=512)  # the same few areas, once a measure
def _atmosphere_at(elevation: str) -> Decimal:
    return units.atmosphere_at(units.split_canonical(elevation).value if elevation else Decimal(0))


def lel_basis_of(area: Area | None) -> Decimal:
    """Percent methane that counts as 100 %LEL in the area."""
    return Decimal(area.lel_basis if area else USUAL_LEL_BASIS)


def read_measure(of: Field, row: Row, *, area: Area | None) -> units.Measure:
    """The measure that a row, or an entry, says under that field. Raises `units.NotUnderstood`. A reading's gas is the
    one that its own row names."""
    return units.read(
        row[of.name],
        of.quantity,
        gas=row.get("gas") if of.quantity == "gas" else None,
        lel_basis=lel_basis_of(area),
        atmosphere=atmosphere_of(area),
    )
