"""Entries that put other entries right: `corrected` and `void`. Nothing is overwritten by them."""

from __future__ import annotations

from repairlog.entries.fields import EntryKind, Rows, entry, text

CORRECTED = EntryKind(
    name="corrected",
    says="an entry is corrected",
    fields=(
        entry("entry", "the entry that is put right", required=True),
        text("reason", "why", longest=1000, required=True),
    ),
    rows=(
        Rows(
            name="changes",
            says="what is changed: a field, and what it should say",
            fields=(
                text("field", "field, or list.key.field", longest=120, required=True),
                text("to", "what it should say; left out, the value is taken away", longest=4000),
            ),
        ),
    ),
)

VOID = EntryKind(
    name="void",
    says="an entry is made void",
    fields=(
        entry("entry", "the entry that was made in error", required=True),
        text("reason", "why", longest=1000, required=True),
    ),
)

KINDS = (CORRECTED, VOID)
