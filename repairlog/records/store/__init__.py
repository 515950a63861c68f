"""The database: opened with the settings that a book of record needs; every commit and begin of RepairLog is here."""

from __future__ import annotations

from repairlog.records.store.any_text import any_text
from repairlog.records.store.engine import DatabaseUrlUnknown
from repairlog.records.store.in_bulk import in_bulk
from repairlog.records.store.store import (
    Away,
    Busy,
    NotReady,
    Store,
    Tx,
    close_the_gate,
    is_worth_another_turn,
    open_store,
)

__all__ = [
    "Away",
    "Busy",
    "DatabaseUrlUnknown",
    "NotReady",
    "Store",
    "Tx",
    "any_text",
    "close_the_gate",
    "in_bulk",
    "is_worth_another_turn",
    "open_store",
]
