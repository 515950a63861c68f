"""What ties things together: a number that others know it by, a link to another, two that turn out to be one."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, code, ref, text

WAYS = ("same_source_as", "split_from", "came_back_after", "same_dig", "waits_on")

OUTSIDE_NUMBER_ADDED = EntryKind(
    name="outside_number_added",
    says="an outside number is added",
    folds_in="subject",
    fields=(
        ref("subject", "what bears it", to="", required=True),
        HAPPENED,
        text("what", "kind of number: work order, call, premise, meter, permit, claim", longest=40, required=True),
        text("number", "number", longest=60, required=True),
    ),
)

LINKED = EntryKind(
    name="linked",
    says="a link is made",
    folds_in="subject",
    fields=(
        ref("subject", "what is linked", to="", required=True),
        HAPPENED,
        code("how", "how it hangs together", of=WAYS, required=True),
        ref("to_subject", "with what", to="", required=True),
        text("reason", "why", longest=1000),
    ),
)

MADE_ONE = EntryKind(
    name="made_one",
    says="two records of the same are made one",
    folds_in="subject",
    fields=(
        ref("subject", "the one that is kept", to="", required=True),
        HAPPENED,
        ref("other", "the other", to="", required=True),
        text("reason", "why", longest=1000, required=True),
    ),
)

STREETS_MADE_ONE = EntryKind(
    name="streets_made_one",
    says="two names of the same street are made one",
    folds_in="subject",
    fields=(
        ref("subject", "operating area", to="area", required=True),
        HAPPENED,
        text("street", "the street as it is kept", required=True),
        text("town", "its town"),
        text("other_street", "the other name, as it was written", required=True),
        text("other_town", "the town written with it"),
        text("reason", "why", longest=1000, required=True),
    ),
)

KINDS = (OUTSIDE_NUMBER_ADDED, LINKED, MADE_ONE, STREETS_MADE_ONE)
