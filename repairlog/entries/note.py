"""A note on anything: a leak, a lot, a person, an area. It cannot be removed, and the form says so."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, ref, text

NOTE = EntryKind(
    name="note",
    says="a note is added",
    folds_in="subject",
    fields=(
        ref("subject", "what the note is on", to="", required=True),
        HAPPENED,
        text("text", "what is to be known", longest=4000, required=True),
    ),
)

KINDS = (NOTE,)
