"""A leak's story in plain words: each entry with its fields, its measures, and what stands beside it in the margin."""

from __future__ import annotations

from repairlog.words.story.head import head
from repairlog.words.story.margin import moved_away
from repairlog.words.story.owed import DueLine, DueNext, due_next
from repairlog.words.story.pieces import Item, Margin, Piece, Telling
from repairlog.words.story.tell import tell, times

__all__ = [
    "DueLine",
    "DueNext",
    "Item",
    "Margin",
    "Piece",
    "Telling",
    "due_next",
    "head",
    "moved_away",
    "tell",
    "times",
]
