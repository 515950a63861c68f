"""An operating area's settings as they stand, folded from its own entries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from repairlog.entries.entry import Standing

USUAL_LEL_BASIS = "5.0"
"""Percent methane that counts as 100 %LEL unless the area says otherwise: ISO 10156, NFPA 325."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """`elevation`: canonical, such as `1609.344 m`; empty where none was said, which counts as sea level.
    `settings_version`: how many entries its story has: every change of its settings counts one up."""

    id: UUID
    name: str
    code: str
    zone: str
    elevation: str
    lel_basis: str
    settings_version: int


def area(entries: Sequence[Standing]) -> Area | None:
    """The area that these entries tell of; None if none of them opens it."""
    opened = next((entry for entry in entries if entry.kind == "area_opened"), None)
    if opened is None:
        return None
    return Area(
        id=opened.id,
        name=opened.text("name"),
        code=opened.text("code"),
        zone=opened.text("zone"),
        elevation=str(opened.understood.get("elevation", "")),
        lel_basis=opened.text("lel_basis") or USUAL_LEL_BASIS,
        settings_version=len(entries),
    )
