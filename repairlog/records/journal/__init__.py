"""The sealed journal: the head, the next line, and lines read back. Only post, rebuild and verify come here."""

from __future__ import annotations

from repairlog.records.journal.append import Appended, append
from repairlog.records.journal.read import Head, HeadMissing, Known, head, known, lines, lines_at, stories

__all__ = ["Appended", "Head", "HeadMissing", "Known", "append", "head", "known", "lines", "lines_at", "stories"]
