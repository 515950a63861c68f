"""Every table of the book, in four kinds: journal, facts, worked, beside."""

from __future__ import annotations

from repairlog.records.tables import beside, books, due, facts, journal, worked
from repairlog.records.tables.metadata import METADATA, TableKind, key_names, of_kind, value_columns
from repairlog.records.tables.triggers import statements as trigger_statements

ENGINE_VERSION = 2
"""Version of what works rows out; a change of a fold raises it."""

__all__ = [
    "ENGINE_VERSION",
    "METADATA",
    "TableKind",
    "beside",
    "books",
    "due",
    "facts",
    "journal",
    "key_names",
    "of_kind",
    "trigger_statements",
    "value_columns",
    "worked",
]
