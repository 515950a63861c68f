"""Rebuilding: facts and worked rows folded from the journal alone, compared with what stands, or written anew."""

from __future__ import annotations

from repairlog.records.rebuild.check import Checked, Difference, check, worked_out_by_older
from repairlog.records.rebuild.plan import JournalAltered, TablesMissing
from repairlog.records.rebuild.write import rebuild
from repairlog.records.tables import METADATA, TableKind

__all__ = [
    "Checked",
    "Difference",
    "JournalAltered",
    "TablesMissing",
    "check",
    "rebuild",
    "tables",
    "worked_out_by_older",
]


def tables() -> list[tuple[str, TableKind]]:
    """Every table of the book with its kind."""
    return [(table.name, table.info["kind"]) for table in METADATA.tables.values()]
