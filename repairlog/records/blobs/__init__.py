"""Blobs: files that entries name by their digest. They lie outside the database, under it, and never change."""

from __future__ import annotations

from repairlog.records.blobs.folder import Put, TooLarge, is_here, path_of, put, state_of, take_away
from repairlog.records.blobs.picture import media_type_of, picture_of, taken_of

__all__ = [
    "Put",
    "TooLarge",
    "is_here",
    "media_type_of",
    "path_of",
    "picture_of",
    "put",
    "state_of",
    "take_away",
    "taken_of",
]
