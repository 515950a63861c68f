"""Entries about an operating area after it was opened."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, day, ref, text

CUT_OVER_SET = EntryKind(
    name="cut_over_set",
    says="the cut-over day of an area is set",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        day("cut_over_on", "first day on which what is missing in a record is raised", required=True),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (CUT_OVER_SET,)
