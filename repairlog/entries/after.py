"""The leak's life after the first day: reopened, a lower grade looked over, scheduled for repair."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, YES_NO, EntryKind, code, day, entry, ref, text

LEAK_REOPENED = EntryKind(
    name="leak_reopened",
    says="the leak is opened again",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        text("reason", "why", longest=1000, required=True),
    ),
)

DOWNGRADE_REVIEWED = EntryKind(
    name="downgrade_reviewed",
    says="a lower grade is reviewed",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        entry("grade_set", "the lower grade", required=True),
        HAPPENED,
        code("outcome", "approved or not", of=("approved", "not_approved"), required=True),
        text("reason", "why", longest=1000),
    ),
)

SCHEDULED_FOR_REPAIR = EntryKind(
    name="scheduled_for_repair",
    says="the repair is scheduled, or not any more",
    folds_in="leak",
    fields=(
        ref("leak", "leak", to="leak", required=True),
        HAPPENED,
        code("scheduled", "scheduled for repair", of=YES_NO, required=True),
        day("for_on", "day for which it is scheduled"),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (LEAK_REOPENED, DOWNGRADE_REVIEWED, SCHEDULED_FOR_REPAIR)
