"""Entries by which an area takes on what is required of it: a rulebook, its rules confirmed, its working days."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, code, day, digest, ref, text

RULEBOOK_ADOPTED = EntryKind(
    name="rulebook_adopted",
    says="an area adopts a rulebook",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        text("rulebook", "rulebook, by its id", longest=80, required=True),
        digest("digest", "digest of the rulebook that is meant", required=True),
        day("from_on", "first day on which it holds in the area", required=True),
        code("although_proposed", "said where the rulebook is a proposal and not in force", of=("yes",)),
        text("reason", "why", longest=1000),
    ),
)

RULE_CONFIRMED = EntryKind(
    name="rule_confirmed",
    says="a rule is confirmed with the text in hand",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        text("rulebook", "rulebook, by its id", longest=80, required=True),
        digest("digest", "digest of the rulebook that is meant", required=True),
        text("rule", "rule, by its id", longest=80, required=True),
        text("document", "document that was read, such as the operator's manual and its revision", required=True),
        text("page", "page or section", longest=80, required=True),
        text("remark", "remark", longest=1000),
    ),
)

WORKING_DAYS_SET = EntryKind(
    name="working_days_set",
    says="the calendar of an area's working days is set",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        text(
            "calendar",
            "country, or country and part of it, whose public holidays count: US, US-NY",
            longest=10,
            required=True,
        ),
        text("reason", "why", longest=1000),
    ),
)

KINDS = (RULEBOOK_ADOPTED, RULE_CONFIRMED, WORKING_DAYS_SET)
