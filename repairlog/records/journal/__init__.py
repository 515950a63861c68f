"""The sealed journal: the head, the next line, and lines read back. Only post, rebuild and verify come here."""

from __future__ import annotations

from repairlog.records.journal.append import Appended, append
from repairlog.records.journal.read import (
    Head,
    HeadMissing,
    Known,
    batches,
    digits,
    head,
    id_text,
    known,
    lines,
    lines_at,
    stories,
)

__all__ = [
    "Appended",
    "Head",
    "HeadMissing",
    "Known",
    "append",
    "batches",
    "digits",
    "head",
    "id_text",
    "known",
    "lines",
    "lines_at",
    "stories",
]
