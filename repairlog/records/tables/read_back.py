"""Worked rows read back into what their fold gave: what the rows were made of, and the same again."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Row

from repairlog.trade.area import Area
from repairlog.trade.lot import Lot


def area_of(row: Row[Any]) -> Area:
    """The area of a row of `area`."""
    return Area(
        id=row.id,
        name=row.name,
        code=row.code,
        zone=row.zone,
        elevation=row.elevation or "",
        lel_basis=row.lel_basis,
        settings_version=row.settings_version,
    )


def lot_of(row: Row[Any]) -> Lot:
    """The lot of a row of `lot`."""
    return Lot(
        id=row.id,
        area=str(row.area_id),
        item=row.item,
        lot_number=row.lot_number,
        expires_on=row.expires_on.isoformat() if row.expires_on else "",
        void=row.void,
    )
