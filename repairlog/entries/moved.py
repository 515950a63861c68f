"""A subject moves to another area: from a day on it answers there. What was entered before keeps its day and number.

A person is not moved: somebody is in an area by the roles given there, each from a day to a day. Neither is an area,
which is one, nor the operator; a source goes with its leak. Where an opening named the wrong area from the start, that
entry is corrected instead.
"""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, ref, text

MOVABLE = ("leak", "call", "dig", "place", "shelf", "lot", "crew", "instrument")
"""Kinds of subjects that answer to one area and may be moved to another."""

SUBJECT_MOVED = EntryKind(
    name="subject_moved",
    says="it is moved to another area",
    folds_in="subject",
    fields=(
        ref("subject", "what is moved", among=MOVABLE, required=True),
        HAPPENED,
        ref("to_area", "the area to which it goes", to="area", required=True),
        text("reason", "why", longest=1000, required=True),
    ),
)

KINDS = (SUBJECT_MOVED,)
