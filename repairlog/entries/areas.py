"""Entries about an operating area after it was opened."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, YES_NO, EntryKind, code, day, ref, text, whole

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

TYPING_TIME_SET = EntryKind(
    name="typing_time_set",
    says="how long after the work an entry may be typed is set",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        whole("hours", "hours after the work until which nothing is raised", least=1, most=8784, required=True),
        text("reason", "why", longest=1000),
    ),
)

OWN_ACCEPTANCE_SAID = EntryKind(
    name="own_acceptance_said",
    says="whether somebody accepts their own work here is said once",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        code("accepts", "whoever did the work may accept it, too", of=YES_NO, required=True),
        text("reason", "why", longest=1000, required=True),
    ),
)

KINDS = (CUT_OVER_SET, TYPING_TIME_SET, OWN_ACCEPTANCE_SAID)
