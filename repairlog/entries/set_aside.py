"""A gap is set aside: it still stands, with the reason why nobody has to do anything about it."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, entry, ref, text

GAP_SET_ASIDE = EntryKind(
    name="gap_set_aside",
    says="a gap is set aside",
    folds_in="subject",
    fields=(
        ref("subject", "in whose record the gap is", to="", required=True),
        entry("about", "the entry that the gap is about", required=True),
        HAPPENED,
        text("gap", "code of the gap", longest=60, required=True),
        text("row", "row or field that it is about", longest=120),
        text("reason", "why nobody has to do anything about it", longest=1000, required=True),
    ),
)

KINDS = (GAP_SET_ASIDE,)
