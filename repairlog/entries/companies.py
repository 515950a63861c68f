"""Entries about companies: who works for the operator beside its own people, and from when to when."""

from __future__ import annotations

from repairlog.entries.fields import HAPPENED, EntryKind, Rows, code, day, ref, text

WHAT = ("contractor", "laboratory", "mutual_aid", "other")
"""What a company does for the operator."""

_COMPANY = ref("subject", "company", to="company", required=True)
_UNTIL = day("until_on", "last day, where one is agreed; open where left out")

COMPANY_ADDED = EntryKind(
    name="company_added",
    says="a company is put on the books",
    opens="company",
    fields=(
        text("name", "name of the company", required=True),
        code("what", "what it does for the operator", of=WHAT, required=True),
        HAPPENED,
        day("from_on", "first day of its work for the operator, where it is known"),
        _UNTIL,
        text("workplace", "where it is reached: its office or yard, never a person's own number", longest=1000),
        text("remarks", "what else is to be known", longest=4000),
    ),
    rows=(
        Rows(
            name="also_named",
            says="names that it is also written as",
            fields=(text("name", "name as written", required=True),),
        ),
    ),
)

COMPANY_BACK = EntryKind(
    name="company_back",
    says="a company works for the operator again, or for longer",
    folds_in="subject",
    fields=(
        _COMPANY,
        HAPPENED,
        day("from_on", "first day of the further term", required=True),
        _UNTIL,
        text("remarks", "what else is to be known", longest=1000),
    ),
)

COMPANY_LEFT = EntryKind(
    name="company_left",
    says="a company's work for the operator ends",
    folds_in="subject",
    fields=(_COMPANY, HAPPENED, day("until_on", "last day", required=True), text("reason", "why", longest=1000)),
)

KINDS = (COMPANY_ADDED, COMPANY_BACK, COMPANY_LEFT)
