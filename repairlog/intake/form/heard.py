"""How the measures of a form are read, before anything is saved: shown back under each box."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from repairlog import units
from repairlog.entries.fields import EntryKind
from repairlog.intake.measures import read_measure
from repairlog.intake.understood import all_fields
from repairlog.trade.area import Area

Heard = units.Measure | units.NotUnderstood
"""What a measure was read as, or why it could not be."""


def heard(kind: EntryKind, raw: Mapping[str, Any], *, area: Area | None) -> dict[str, Heard]:
    """What is heard in each measure of a raw entry that a form gave, by path; boxes left empty are left out."""
    found: dict[str, Heard] = {}
    for of, path, row in all_fields(raw, kind):
        if of.kind == "measure" and of.name in row:
            try:
                found[path] = read_measure(of, row, area=area)
            except units.NotUnderstood as unclear:
                found[path] = unclear
    return found
